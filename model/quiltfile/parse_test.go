package quiltfile

import (
	"fmt"
	"strings"
	"testing"
)

// mark stands in a test's input before each value that an error is expected
// at, once for each error.
const mark = '▲'

// unmarked gives the input without its marks, and their places.
func unmarked(input string) (text string, places []string) {
	var b strings.Builder
	line, column := 1, 1
	for _, r := range input {
		switch r {
		case mark:
			places = append(places, fmt.Sprintf("q.yaml:%d:%d: ", line, column))
			continue
		case '\n':
			line, column = line+1, 0
		}
		column++
		b.WriteRune(r)
	}
	return b.String(), places
}

func TestParseErrors(t *testing.T) {
	for _, test := range []struct {
		name, input string
		want        []string // what is said at each mark
	}{
		{"unknown keys", `▲titel: Harbour steps
unit: in
▲fabric-defaults: {straighten: 1}
fabrics:
  ink: {▲width: 42, ▲one-way: yes}
cuts:
- {name: A, fabric: ink, size: 2, ▲cuont: 3, count: 3, ▲<<: {}}
`, []string{
			`unknown key ("titel"), did you mean title?`,
			`unknown key ("fabric-defaults"), did you mean fabric_defaults?`,
			`unknown key ("width"), remove it, or write one of name, one_way, usable_widths, sold_by, straighten, shrinkage or price`,
			`unknown key ("one-way"), did you mean one_way?`,
			`unknown key ("cuont"), did you mean count?`,
			`unknown key ("<<"), remove it, or write one of name, fabric, size, count, halve, use, turn or grain`,
		}},
		{"missing keys", `▲▲▲{title: Harbour steps}`, []string{
			"unit: missing, add unit: and its value",
			"fabrics: missing, add fabrics: and its value",
			"cuts: missing, add cuts: and its value",
		}},
		{"missing keys of a cut", `
unit: in
fabrics: {ink: {}}
cuts:
- ▲▲▲▲{use: corners}
- ▲fabric: ink
  name: B
  size: 3
- name:▲
  fabric:▲
  size:▲
  count:▲
`, []string{
			"cut 1: name: missing, add name: and its value",
			"cut 1: fabric: missing, add fabric: and its value",
			"cut 1: size: missing, add size: and its value",
			"cut 1: count: missing, add count: and its value",
			`cut "B": count: missing, add count: and its value`,
			"cut 3: name: missing, write a label such as A",
			"cut 3: fabric: missing, write the fabric that the piece is cut from",
			"cut 3: size: not a length, nothing is written: write it like 12 1/2, 12.5 or 31.75 cm",
			"cut 3: count: not a whole number, nothing is written: write it in digits, as in 96",
		}},
		{"nothing in the lists", "unit: in\nfabrics: ▲{}\ncuts: ▲[]\n", []string{
			"fabrics: missing, write at least one",
			"cuts: missing, write at least one",
		}},
		{"no values", "unit: in\nfabrics:▲\ncuts:▲\n", []string{
			"fabrics: missing, write at least one",
			"cuts: missing, write at least one",
		}},
		{"duplicate keys", `unit: in
▲unit: cm
fabrics:
  ink: {name: Ink, ▲name: Ink solid}
  oat: {}
  ▲ink: {}
cuts: [{name: A, fabric: ink, size: 2, count: 3, ▲size: 3}]
`, []string{
			`key used twice ("unit"), remove it here or in line 1`,
			`key used twice ("name"), remove it here or in line 4`,
			`key used twice ("ink"), remove it here or in line 4`,
			`key used twice ("size"), remove it here or in line 7`,
		}},
		{"wrong kinds", `title: ▲[Harbour, steps]
unit: in
ruler: ▲{mark: 1/8}
fabric_defaults: ▲none
fabrics:
  ink: ▲ink
  oat: {usable_widths: ▲40, one_way: ▲[yes], sold_by: ▲{yd: 1}}
  ▲[a]: {}
cuts:
- ▲just text
- {name: A, fabric: ▲[ink], size: ▲[2, 3], count: ▲{}}
`, []string{
			"title: wrong kind of value: a list where a single value belongs, write one value",
			"ruler: wrong kind of value: a group of keys where a single value belongs, write one value",
			"fabric_defaults: wrong kind of value: a single value where a group of keys belongs, write keys with values, as in {name: A}",
			`fabric "ink": wrong kind of value: a single value where a group of keys belongs, write it as in ink: {name: ink}`,
			`fabric "oat": usable_widths: wrong kind of value: a single value where a list belongs, write a list, as in [40, 42]`,
			`fabric "oat": one_way: wrong kind of value: a list where a single value belongs, write one value`,
			`fabric "oat": sold_by: wrong kind of value: a group of keys where a single value belongs, write one value`,
			"key: wrong kind of value: a list where a single value belongs, write one value",
			"cut 1: wrong kind of value: a single value where a group of keys belongs, write keys with values, as in {name: A}",
			`cut "A": fabric: wrong kind of value: a list where a single value belongs, write one value`,
			`cut "A": size: wrong kind of value: a list where a single value belongs, write 2 x 3`,
			`cut "A": count: wrong kind of value: a group of keys where a single value belongs, write one value`,
		}},
		{"lists of the wrong kind", "unit: in\nfabrics: ▲[ink]\ncuts: ▲{A: {fabric: ink}}\n", []string{
			"fabrics: wrong kind of value: a list where a group of keys belongs, write it as in ink: {name: Kelp green}",
			`cuts: wrong kind of value: a group of keys where a list belongs, begin each cut with "- "`,
		}},
		{"the file is a list", "▲- unit: in\n", []string{
			"wrong kind of value: a list where a group of keys belongs, write keys with values, as in {name: A}",
		}},
		{"the file is a text", "▲Harbour steps\n", []string{
			"wrong kind of value: a single value where a group of keys belongs, write keys with values, as in {name: A}",
		}},
		{"counts", `unit: in
fabrics: {ink: }
cuts:
- {name: A, fabric: ink, size: 2, count: ▲0}
- {name: B, fabric: ink, size: 2, count: ▲-3}
- {name: C, fabric: ink, size: 2, count: ▲1e9}
- {name: D, fabric: ink, size: 2, count: ▲1000000000}
- {name: E, fabric: ink, size: 2, count: ▲99999999999999999999}
- {name: F, fabric: ink, size: 2, count: ▲-99999999999999999999}
- {name: G, fabric: ink, size: 2, count: ▲2.5}
- {name: H, fabric: ink, size: 2, count: ▲many}
- {name: J, fabric: ink, size: 2, count: 60000}
- {name: K, fabric: ink, size: 2, count: ▲"60000"}
`, []string{
			`cut "A": count: out of range ("0"), write a whole number from 1 to 100,000`,
			`cut "B": count: out of range ("-3"), write a whole number from 1 to 100,000`,
			`cut "C": count: not a whole number ("1e9"), write it in digits, as in 96`,
			`cut "D": count: out of range ("1000000000"), write a whole number from 1 to 100,000`,
			`cut "E": count: out of range ("9223372036854775807"), write a whole number from 1 to 100,000`,
			`cut "F": count: out of range ("-9223372036854775808"), write a whole number from 1 to 100,000`,
			`cut "G": count: not a whole number ("2.5"), write it in digits, as in 96`,
			`cut "H": count: not a whole number ("many"), write it in digits, as in 96`,
			`cut "K": count: too many ("60000"), with it the quilt has more than 100,000 pieces, cut fewer`,
		}},
		{"sizes", `unit: in
fabrics:
  ink: {}
  oat: {one_way: yes}
cuts:
- {name: A, fabric: ink, count: 3, size: ▲12 1/x}
- {name: B, fabric: ink, count: 3, size: ▲2 1/2 x 4 1/2 x 6 1/2}
- {name: C, fabric: ink, count: 3, size: ▲"12,5"}
- {name: D, fabric: ink, count: 3, size: ▲12,▲5}
- {name: E, fabric: ink, count: 3, size: ▲-3}
- {name: F, fabric: ink, count: 3, size: ▲0}
- {name: G, fabric: ink, count: 3, size: ▲2 1/128}
- {name: H, fabric: ink, count: 3, size: ▲2 1/16}
- {name: J, fabric: ink, count: 3, size: ▲41 x 43}
- {name: K, fabric: oat, count: 3, size: ▲60 1/2 x 6 1/2}
- {name: L, fabric: ink, count: 3, size: 60 1/2 x 6 1/2, grain: ▲lengthwise}
- {name: M, fabric: ink, count: 3, size: 2 x 3, halve: ▲twice}
- {name: N, fabric: ink, count: 3, size: 60 1/2 x 6 1/2}
- {name: O, fabric: ink, count: 3, size: ▲2 feet}
`, []string{
			`cut "A": size: not a length ("12 1/x"), write it like 12 1/2, 12.5 or 31.75 cm`,
			`cut "B": size: not a size ("2 1/2 x 4 1/2 x 6 1/2"), write width x height, as in 2 1/2 x 4 1/2, or one number for a square`,
			`cut "C": size: comma in a number ("12,5"), write a point for decimals, as in 12.5, and nothing between thousands`,
			`SKIP`,
			`unknown key ("5"), put a text that has a comma in quotes, and write a point for decimals, as in 12.5`,
			`cut "E": size: a length has no sign ("-3"), leave out the sign`,
			`cut "F": size: not more than 0 ("0"), write the size that the blade cuts`,
			`cut "G": size: finer than 1/64 in, 1/24 in or 0.1 mm ("2 1/128"), the next length up is 2 1/64 in`,
			`cut "H": size: off the ruler's mark ("2 1/16"), write 2 1/8 or ruler: 1/16`,
			`cut "J": size: wider than the fabric ("41 x 43"), the usable width is 40 in: cut it in parts and join them, or use wider fabric`,
			`cut "K": size: wider than the fabric ("60 1/2 x 6 1/2"), the usable width is 40 in: write size: 6 1/2 x 60 1/2 if the print may lie on its side, or join two parts`,
			`cut "L": grain: the long side runs the other way ("lengthwise"), write size: 6 1/2 x 60 1/2 (width across the fabric x height along it)`,
			`cut "M": halve: only a square is halved twice ("2 x 3"), write a square, or halve: once`,
			`cut "O": size: not a length ("2 feet"), write the unit as in, cm, mm, m or yd`,
		}},
		{"names and words", `title: ▲"Harbour\nsteps"
unit: in
ruler: ▲1/x
fabrics:
  ink: {}
  ▲"": {}
cuts:
- {name: A, fabric: ▲inc, size: 2 9/16, count: 3}
- {name: ▲A, fabric: ink, size: 2, count: 3, halve: ▲thrice, turn: ▲never, grain: ▲bias}
- {name: ▲"B\e[31m", fabric: ink, size: 2, count: 3, turn: "no", use: ▲"\t a \t b"}
`, []string{
			`title: not plain text on one line ("Harbour\nsteps"), leave out line breaks, tabs and control characters`,
			`ruler: not a length ("1/x"), write it like 12 1/2, 12.5 or 31.75 cm`,
			"fabric 2: id: missing, write a label such as A",
			`cut "A": fabric: not a fabric of this quilt ("inc"), write ink, or add it to the fabrics`,
			`cut "A": name: used twice ("A"), write another label`,
			`cut "A": halve: unknown word ("thrice"), write once or twice`,
			`cut "A": turn: not yes or no ("never"), write yes or no`,
			`cut "A": grain: unknown word ("bias"), write crosswise or lengthwise`,
			`cut "B\x1b[31m": name: not plain text on one line ("B\x1b[31m"), leave out line breaks, tabs and control characters`,
			`cut "B\x1b[31m": use: not plain text on one line ("a \t b"), leave out line breaks, tabs and control characters`,
		}},
		{"fabrics", `unit: in
fabric_defaults:
  sold_by: ▲6 yd
  straighten: ▲1 yd 2
  usable_widths: [40, ▲0.5, ▲x, ▲40, ▲[1]]
  shrinkage: ▲2
fabrics:
  ink: {}
  oat: {sold_by: ▲1/8, usable_widths: ▲[], shrinkage: ▲60%, straighten: ▲37, price: ▲$12}
  foam: {sold_by: ▲0 yd, usable_widths: [41, 42, 43, 44, 45, 46, 47, 48, ▲49], one_way: ▲up}
cuts: [{name: A, fabric: ink, size: 2, count: 3}]
`, []string{
			`sold_by: out of range ("6 yd"), write a step of at most 5 yd`,
			`straighten: not a length ("1 yd 2"), write it like 12 1/2, 12.5 or 31.75 cm`,
			`usable_widths: out of range ("1/2 in"), write 1 in to 130 in`,
			`usable_widths: not a length ("x"), write it like 12 1/2, 12.5 or 31.75 cm`,
			`usable_widths: used twice ("40 in"), write each width once`,
			"usable_widths: wrong kind of value: a list where a single value belongs, write one value",
			`shrinkage: not a share from 0% to 50% ("2"), write it like 2% or 2.5%`,
			`fabric "oat": sold_by: not a length that cloth is sold by ("1/8"), write it with yd, m, cm or in, as in 1/8 yd or 10 cm`,
			`fabric "oat": usable_widths: missing, write at least one width, as in [40, 42]`,
			`fabric "oat": shrinkage: not a share from 0% to 50% ("60%"), write a smaller share`,
			`fabric "oat": straighten: out of range ("37 in"), write 0 to 36 in`,
			`fabric "oat": price: not a price ("$12"), write a number alone, as in 12 or 12.50`,
			`fabric "foam": sold_by: not more than 0 ("0 yd"), write a step such as 1/8 yd or 10 cm`,
			`fabric "foam": usable_widths: too many, write at most 8`,
			`fabric "foam": one_way: not yes or no ("up"), write yes or no`,
		}},
		// The other faults that may follow from a wrong unit are not told.
		{"unit", `unit: ▲ft
ruler: 0.1
fabrics: {ink: {usable_widths: [107]}}
cuts: [{name: A, fabric: ink, size: 31.7, count: ▲x}]
`, []string{
			`unit: not a unit ("ft"), write in or cm`,
			`cut "A": count: not a whole number ("x"), write it in digits, as in 96`,
		}},
		{"centimetres", `unit: cm
fabrics: {ink: {usable_widths: [▲331]}}
cuts: [{name: A, fabric: ink, size: ▲2 1/32 x 3, count: 1}, {name: B, fabric: ink, size: ▲2.05, count: 1}]
`, []string{
			`fabric "ink": usable_widths: out of range ("331 cm"), write 2.54 cm to 330.2 cm`,
			`cut "A": size: finer than 1/64 in, 1/24 in or 0.1 mm ("2 1/32"), the next length up is 2.04 cm`,
			`cut "B": size: off the ruler's mark ("2.05"), write 2.1 or ruler: 0.05`,
		}},
		{"aliases and tags", `unit: in
fabrics: {ink: &ink {name: Ink}, oat: ▲*ink}
cuts:
- {name: ▲!!str A, fabric: ▲!dye ink, size: &two 2, count: 3}
- {name: B, fabric: ink, size: ▲*two, count: 3}
`, []string{
			`fabric "oat": an alias of YAML ("*ink"), write the value out`,
			`cut 1: name: a tag of YAML ("!!str"), leave it out`,
			`cut 1: fabric: a tag of YAML ("!dye"), leave it out`,
			`cut "B": size: an alias of YAML ("*two"), write the value out`,
		}},
		{"characters count, not bytes", "unit: in\nfabrics: {größe: {name: ½⅓}}\ncuts: [{name: é, fabric: größe, size: ▲½x½x½, count: ▲½}]\n", []string{
			`cut "é": size: not a size ("½x½x½"), write width x height, as in 2 1/2 x 4 1/2, or one number for a square`,
			`cut "é": count: not a whole number ("½"), write it in digits, as in 96`,
		}},

		{"curly quotes", `unit: in
fabrics: {ink: {name: ▲“Ink solid”}}
cuts:
- {name: ▲“A”, fabric: ▲“ink”, size: ▲“2 x 3”, count: ▲“4”}
- {name: B, fabric: ink, size: 2” x 3”, count: 4}
`, []string{
			`fabric "ink": name: in curly quotes ("“Ink solid”"), write straight ones or none`,
			`cut "“A”": name: in curly quotes ("“A”"), write straight ones or none`,
			`cut "“A”": fabric: not a fabric of this quilt ("“ink”"), these are curly quotes: write straight ones or none`,
			`cut "“A”": size: not a length ("“2"), these are curly quotes: write straight ones or none`,
			`cut "“A”": count: not a whole number ("“4”"), these are curly quotes: write straight ones or none`,
		}},
		{"keys without a colon or a space", `▲Unit: in
fabrics: {ink: {}}
cuts: [{▲name A, fabric: ink, size: 2, ▲count:7}]
`, []string{
			`unknown key ("Unit"), did you mean unit?`,
			`unknown key ("name A"), write a colon and a space behind the key, as in name: A`,
			`unknown key ("count:7"), write a colon and a space behind the key, as in count: 7`,
		}},
		{"two fabrics of one name", `unit: in
fabrics: {ink: {name: Ink}, oat: {name: ▲Ink}}
cuts: [{name: A, fabric: ink, size: 2, count: 7}]
`, []string{`fabric "oat": name: used twice ("Ink"), write another name, or use one fabric`}},

		// What is not YAML is told alone.
		{"title without a colon", "title Steps\nunit▲: in\n", []string{
			`not YAML: a colon where no key ends, write a colon behind title in the line before`}},
		{"curly quotes about a colon", "unit: in\ntitle: “Wind▲: two”\n", []string{
			`not YAML: a colon where no key ends, write straight quotes in place of curly ones`}},
		{"bullets", "unit: in\ncuts:\n  • {name: A, fabric▲: ink}\n", []string{
			`not YAML: a colon where no key ends, begin each cut with a plain "- ", not with •`}},
		{"long dashes", "unit: in\ncuts:\n  – {name: A, fabric▲: ink}\n", []string{
			`not YAML: a colon where no key ends, begin each cut with a plain "- ", not with –`}},
		{"no dashes", "unit: in\ncuts:\n  {name: A}\n  ▲{name: B}\n", []string{
			`not YAML: a line that does not fit those above, begin each cut with "- "`}},
		{"colon in a text", "unit: in\ntitle: Harbour▲: steps\nruler: x\n", []string{
			`not YAML: a colon where no key ends, put a text that has ": " in quotes, and check the indent`}},
		{"tab", "fabrics:\n▲\tink: {}\n", []string{
			"not YAML: a character that starts no value, indent with spaces, not tabs, and put texts that start with @, ` or % in quotes"}},
		{"open bracket", "unit: in\nwidths: ▲[40, 42\n", []string{"not YAML: a list without its end, close it with ]"}},
		{"open brace", "unit: in\ncuts:\n- ▲{name: A\n- {name: B}\n", []string{
			"not YAML: a group of keys without its end, close it with } and put commas between the keys"}},
		{"open quote", "title: \"Harbour\nunit: in\n▲", []string{"not YAML: a quote without its end, close the quote"}},
		{"wrong indent", "unit: in\n  ruler▲: 1/8\n", []string{
			`not YAML: a colon where no key ends, put a text that has ": " in quotes, and check the indent`}},
		{"a second file", "unit: in\n▲---\nunit: cm\n", []string{"a second YAML document, keep one quilt in a file"}},
		{"unknown alias", "unit: ▲*u\n", []string{"not YAML: an alias of YAML, write the value out"}},
		{"too deep", "unit: " + strings.Repeat("[", 20) + "▲" + strings.Repeat("[", 1000), []string{
			"nested too deep, a quilt file has at most 20 levels"}},
		{"control character", "title: a▲\x00b\n", []string{`not UTF-8 text ("\x00"), remove the control character`}},
		{"empty", "", nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			text, places := unmarked(test.input)
			var want []string
			for i, says := range test.want {
				if i < len(places) && says != "SKIP" {
					want = append(want, places[i]+says)
				}
			}
			if len(places) != len(test.want) {
				t.Fatalf("%d marks for %d errors", len(places), len(test.want))
			}
			if want == nil {
				want = []string{"q.yaml: empty file, write title, unit, fabrics and cuts"}
			}
			q, err := Parse("q.yaml", []byte(text))
			if err == nil || err.Error() != strings.Join(want, "\n") {
				t.Errorf("got\n%v\nwant\n%s", err, strings.Join(want, "\n"))
			}
			if q.Fabrics != nil || q.Cuts != nil || q.Title != "" {
				t.Errorf("a quilt besides the error: %+v", q)
			}
		})
	}
}

func TestNearest(t *testing.T) {
	names := []string{"name", "fabric", "size", "count", "usable_widths", "use"}
	for word, want := range map[string]string{
		"nmae": "name", "Name": "name", "nam": "name", "fabrics": "fabric", "fabirc": "fabric", "usable-width": "usable_widths",
		"useable_widths": "usable_widths", "used": "use", "sizes": "size", "cnt": "", "colour": "", "": "", "xxxx": "", "sieve": "",
		strings.Repeat("count", 9): "",
	} {
		if got := Nearest(word, names); got != want {
			t.Errorf("%q is likely %q, want %q", word, got, want)
		}
	}
	for _, test := range []struct {
		a, b string
		want int
	}{{"", "abc", 3}, {"abc", "", 3}, {"abc", "abc", 0}, {"abc", "acb", 1}, {"kitten", "sitting", 3}, {"größe", "grösse", 2}} {
		if got := editDistance(test.a, test.b); got != test.want {
			t.Errorf("from %q to %q are %d edits, want %d", test.a, test.b, got, test.want)
		}
	}
}
