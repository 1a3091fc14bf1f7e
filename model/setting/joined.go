package setting

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/model"
	"crossgrain/model/block"
)

// joined are long pieces that are cut from one run of strips, joined end to
// end.
type joined struct {
	what    string // as in: Long sashes
	lengths []model.Length
}

// addTo adds the run to a yield, if there is one: the strip is given without
// its Run. A note tells the lengths to cut from it.
func (j joined) addTo(y *block.Yield, r block.Rules, strip model.Strip) {
	if len(j.lengths) == 0 {
		return
	}
	var words []string
	counts := make(map[model.Length]int)
	for _, l := range j.lengths {
		strip.Run += l
		if counts[l]++; counts[l] == 1 {
			words = append(words, "")
		}
	}
	longest := make([]model.Length, 0, len(counts))
	for l := range counts {
		longest = append(longest, l)
	}
	slices.Sort(longest)
	slices.Reverse(longest)
	for i, l := range longest {
		words[i] = fmt.Sprintf("%d of %s", counts[l], l.FormatWithUnit(r.Unit))
	}
	y.Strips = append(y.Strips, strip)
	y.Notes = append(y.Notes, fmt.Sprintf("%s: join the strips to one length, and cut from it %s.", j.what, strings.Join(words, ", ")))
}

// grainOf is the grain of a piece whose length must run across the fabric, if
// it is longer than high.
func grainOf(length, height model.Length) model.Grain {
	if length > height {
		return model.Crosswise
	}
	return model.AnyGrain
}

// Widths are the usable widths of a fabric, ascending; none if it is not among
// the fabrics.
func Widths(fabrics []model.Fabric, id string) []model.Length {
	for _, f := range fabrics {
		if f.ID == id {
			return slices.Sorted(slices.Values(f.UsableWidths))
		}
	}
	return nil
}

// Narrowest is the narrowest usable width of a fabric; 0 if it is not among the
// fabrics.
func Narrowest(fabrics []model.Fabric, id string) model.Length {
	if widths := Widths(fabrics, id); len(widths) > 0 {
		return widths[0]
	}
	return 0
}

// oneWay reports whether a fabric has an up.
func oneWay(fabrics []model.Fabric, id string) bool {
	return slices.ContainsFunc(fabrics, func(f model.Fabric) bool { return f.ID == id && f.OneWay })
}
