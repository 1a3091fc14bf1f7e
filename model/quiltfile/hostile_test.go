package quiltfile

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"

	"crossgrain/model"
)

const small = "unit: in\nfabrics: {ink: }\ncuts: [{name: A, fabric: ink, size: 2 1/2, count: 3}]\n"

// laughs is a file of aliases that grow tenfold in each line.
func laughs() string {
	var b strings.Builder
	b.WriteString("a0: &a0 [ha]\n")
	for i := 1; i < 10; i++ {
		fmt.Fprintf(&b, "a%d: &a%d [%s]\n", i, i, strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*a%d, ", i-1), 10), ", "))
	}
	return b.String() + "unit: *a9\nfabrics: *a9\ncuts: *a9\n"
}

// fill repeats a piece of text nearly up to the size of the largest file.
func fill(start, piece string) string {
	return start + strings.Repeat(piece, (maxFile-64-len(start))/len(piece))
}

// numbered is fill with a number in each piece.
func numbered(start, form string) string {
	b := []byte(start)
	for i := 0; ; i++ {
		next := fmt.Appendf(b, form, i)
		if len(next) > maxFile {
			return string(b)
		}
		b = next
	}
}

// nested is a file of blocks that hold four of the block before.
func nested() string {
	b := []byte("unit: in\nfabrics: {ink: }\nunits: {c: {square: 2, fabric: ink}}\nblocks:\n  b0: {finished: 2, rows: [[c]]}\n")
	for i := 0; len(b) < maxFile-200; i++ {
		b = fmt.Appendf(b, "  b%d: {finished: 4, rows: [[b%d, b%d], [b%d, b%d]]}\n", i+1, i, i, i, i)
	}
	return string(b)
}

// hostile are files made to cost time or memory.
func hostile() map[string]string {
	return map[string]string{
		"laughs":         laughs(),
		"deep flow":      fill("unit: ", "["),
		"deep groups":    fill("unit: ", "{a: "),
		"deep block":     fill("", "- "),
		"deep keys":      fill("", "? "),
		"many keys":      numbered("", "k%d: 1\n"),
		"same key":       fill("", "k: 1\n"),
		"near keys":      numbered("fabrics:\n", "  f%d: {usable_width: 1}\n"),
		"many fabrics":   numbered("unit: in\nfabrics:\n", "  f%d:\n"),
		"empty cuts":     fill("unit: in\nfabrics: {ink: }\ncuts:\n", "- {}\n"),
		"unknown fabric": numbered("unit: in\nfabrics: {ink: }\ncuts:\n", "- {name: %d, fabric: x, size: 2, count: 1}\n"),
		"many widths":    fill("unit: in\nfabrics: {ink: {usable_widths: [", "40,") + "]}}\n",
		"many aliases":   fill("unit: &a in\nfabrics: [", "*a,") + "]\n",
		"many anchors":   numbered("unit:\n", "- &a%d x\n"),
		"merges":         fill("a: &a {}\nb: {", "<<: *a,") + "}\n",
		"long key":       fill("", "k") + ": 1\n",
		"long text":      fill("title: ", "t") + "\n",
		"long quote":     fill("title: \"", "\\n") + "\"\n",
		"long number":    fill("ruler: ", "9") + "\nunit: in\n",
		"comments":       fill("", "#\n"),
		"blank":          fill("", "\n"),
		"nested blocks":  nested(),
		"many units":     numbered("unit: in\nfabrics: {ink: }\nunits:\n", "  u%d: {square: 1/2, fabric: foam}\n"),
		"many cells":     fill("unit: in\nfabrics: {ink: }\nunits: {c: {square: 2, fabric: ink}}\nblocks: {b: {finished: 4, rows: [[", "c,") + "]]}}\n",
		"many sizes":     numbered("unit: in\nfabrics: {ink: }\nsizes:\n", "  s%d: {rows: 400, columns: 400}\n"),
		"many borders":   fill("unit: in\nfabrics: {ink: }\nborders: [", "{},") + "]\n",
		"documents":      fill("", "---\n"),
		"directives":     fill("", "%TAG ! x\n"),
		"fractions":      fill("unit: in\nruler: ", "½"),
		"one byte more":  strings.Repeat("#", maxFile+1),
	}
}

// Hostile files are refused soon, in little memory, and in few lines.
func TestHostileFiles(t *testing.T) {
	// Each takes a fraction of a second; the limit leaves room for a busy
	// machine and the race detector, and none for work that grows.
	const longest, largest, longestMessage = 30 * time.Second, 512 << 20, 64 << 10
	for name, text := range hostile() {
		t.Run(name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			start := time.Now()
			_, err := Parse("q.yaml", []byte(text))
			elapsed := time.Since(start)
			runtime.ReadMemStats(&after)
			if err == nil {
				t.Fatal("the file was read")
			}
			if elapsed > longest {
				t.Errorf("it took %v", elapsed)
			}
			if used := after.TotalAlloc - before.TotalAlloc; used > largest {
				t.Errorf("it took %d MB", used>>20)
			}
			if message := err.Error(); len(message) > longestMessage || strings.Contains(message, "yaml.") || strings.Contains(message, "model.") {
				t.Errorf("%d bytes of message: %.2000s", len(message), message)
			}
		})
	}
}

func TestTooLargeFile(t *testing.T) {
	_, err := Parse("q.yaml", []byte(strings.Repeat("#", maxFile+1)))
	if want := "q.yaml: too large a file, a quilt file has at most 256 kB"; !errors.Is(err, ErrTooLarge) || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	if q, err := Parse("q.yaml", []byte(fill(small, "#\n"))); err != nil {
		t.Errorf("a file of 256 kB: %+v, %v", q, err)
	}
}

func TestManyErrorsInFewLines(t *testing.T) {
	_, err := Parse("q.yaml", []byte(small+strings.Repeat("\nx: 1", 60)))
	var errs Errors
	if !errors.As(err, &errs) || len(errs) != 60 {
		t.Fatalf("%d errors: %v", len(errs), err)
	}
	lines := strings.Split(err.Error(), "\n")
	if len(lines) != 51 || lines[50] != "and 10 more" {
		t.Errorf("%d lines, the last is %q", len(lines), lines[len(lines)-1])
	}
	if !errors.Is(err, ErrUnknownKey) || !errors.Is(err, ErrDuplicateKey) || errors.Is(err, ErrEmpty) {
		t.Error("the kinds of the errors are not found")
	}
}

// The faults that model finds keep their types.
func TestErrorKinds(t *testing.T) {
	_, err := Parse("q.yaml", []byte(strings.Replace(small, "2 1/2", "2 1/16", 1)))
	var at *Error
	var fault *model.Fault
	if !errors.As(err, &at) || at.File != "q.yaml" || at.Line != 3 || at.Column != 37 ||
		!errors.As(err, &fault) || fault.Field != model.FieldSize || !errors.Is(err, model.ErrOffMark) {
		t.Errorf("got %v", err)
	}
}

func TestNotUTF8(t *testing.T) {
	for text, want := range map[string]string{
		"title: é\xe9\n": "q.yaml:1:9: not UTF-8 text, save the file as UTF-8",
		"\xff\xfeu\x00n": "q.yaml:1:1: not UTF-8 text, save the file as UTF-8",
		"PK\x03\x04\x14": "q.yaml: not UTF-8 text, a quilt file is YAML, not a workbook or an archive",
	} {
		if _, err := Parse("q.yaml", []byte(text)); err == nil || err.Error() != want || !errors.Is(err, ErrNotText) {
			t.Errorf("%q: got %v, want %s", text, err, want)
		}
	}
}

// A quilt is the same however its file is laid out.
func TestLayouts(t *testing.T) {
	want, err := Parse("q.yaml", []byte(small))
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"byte order mark":  "\ufeff" + small,
		"Windows lines":    strings.ReplaceAll(small, "\n", "\r\n"),
		"document start":   "---\n" + small + "...\n",
		"comments":         "# our quilt\n" + strings.ReplaceAll(small, "\n", " # here\n"),
		"another order":    "cuts: [{count: '3', size: 2.50, fabric: ink, name: A}]\nfabrics: {\"ink\": {}}\nunit: in\n",
		"said in full":     small + "title: ''\nruler: 0.125\nfabric_defaults: {usable_widths: [40.0, 42], sold_by: 0.125 yd, straighten: 0.0 cm, shrinkage: 0}\n",
		"block":            "unit: in\nfabrics:\n  ink:\n    one_way: no\n    name:\ncuts:\n  - name: >\n      A\n    fabric: ink\n    size: 2½\n    count: 3\n    turn: yes\n",
		"JSON":             `{"unit": "in", "fabrics": {"ink": null}, "cuts": [{"name": "A", "fabric": "ink", "size": 2.5, "count": 3}]}`,
		"anchors, unused":  strings.Replace(small, "2 1/2", "&s 2 1/2", 1),
		"centimetres":      strings.Replace(small, "2 1/2", "6.35 cm", 1),
		"empty_defaults":   small + "fabric_defaults:\n",
		"ruler at its end": small + "ruler: 1/8\n",
	} {
		got, err := Parse("q.yaml", []byte(text))
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: got %+v, %v", name, got, err)
		}
	}
}

// A file in centimetres has the defaults of centimetres, wherever its unit
// stands.
func TestCentimetreDefaults(t *testing.T) {
	q, err := Parse("q.yaml", []byte("cuts: [{name: A, fabric: sea, size: 6.5, count: 3}]\nfabrics: {sea: }\nunit: cm\n"))
	sea := model.DefaultFabric(model.Centimetres)
	sea.ID = "sea"
	side := 65 * model.Millimetre
	want := model.Quilt{
		Unit: model.Centimetres, Ruler: model.Millimetre, Fabrics: []model.Fabric{sea},
		Cuts: []model.Cut{{Name: "A", Fabric: "sea", Width: side, Height: side, Count: 3}},
	}
	if err != nil || !reflect.DeepEqual(q, want) {
		t.Errorf("got %+v, %v", q, err)
	}
}

func TestRead(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "q.yaml")
	if err := os.WriteFile(file, []byte(small), 0o600); err != nil {
		t.Fatal(err)
	}
	if q, err := Read(file); err != nil || len(q.Cuts) != 1 {
		t.Errorf("%+v, %v", q, err)
	}
	missing := filepath.Join(folder, "no.yaml")
	for path, want := range map[string]string{
		missing: missing + ": cannot be read: no such file or directory, check the name and the folder",
		folder:  folder + ": cannot be read: a folder, name a quilt file in it",
	} {
		if _, err := Read(path); err == nil || err.Error() != want || !errors.Is(err, ErrUnreadable) {
			t.Errorf("got  %v\nwant %s", err, want)
		}
	}
	if _, err := Read(missing); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the cause is lost: %v", err)
	}
	if os.Geteuid() == 0 {
		t.Skip("root may read every file")
	}
	if err := os.Chmod(file, 0); err != nil {
		t.Fatal(err)
	}
	want := file + ": cannot be read: permission denied, ask for leave to read it, or copy it to a folder of yours"
	if _, err := Read(file); err == nil || err.Error() != want || !errors.Is(err, os.ErrPermission) {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

// A file that never ends is not read to its end.
func TestReadEndless(t *testing.T) {
	if _, err := os.Stat("/dev/zero"); err != nil {
		t.Skip("no endless file here")
	}
	if _, err := Read("/dev/zero"); !errors.Is(err, ErrTooLarge) {
		t.Errorf("got %v", err)
	}
}

func FuzzParse(f *testing.F) {
	for _, file := range []string{"harbour-steps.yaml", "tide-pool-cm.yaml"} {
		data, err := os.ReadFile(filepath.Join(quilts, file))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	for _, text := range []string{
		small, laughs(), "", "unit: in", "- a", "a: b: c", "\t", "[[[[", "{{{{", "? - ?", "<<: *a", "&a *a", "!!x y", "\xff", "%YAML 9",
		strings.Replace(small, "2 1/2", "12 1/x", 1), strings.Replace(small, "3", "-3", 1), strings.Replace(small, "in", "cm", 1),
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		q, err := Parse("q.yaml", data)
		if err != nil {
			var errs Errors
			if !errors.As(err, &errs) || len(errs) == 0 || !reflect.DeepEqual(q, model.Quilt{}) {
				t.Fatalf("%+v and the error %v", q, err)
			}
			return
		}
		var b strings.Builder
		if err := Write(&b, q); err != nil {
			t.Fatalf("%+v is not written: %v", q, err)
		}
		if back, err := Parse("q.yaml", []byte(b.String())); err != nil || !reflect.DeepEqual(back, q) {
			t.Fatalf("got  %+v, %v\nwant %+v\n%s", back, err, q, b.String())
		}
	})
}
