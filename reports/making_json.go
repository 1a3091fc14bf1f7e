package reports

import (
	"encoding/json"
	"io"

	"crossgrain/model"
	"crossgrain/model/design"
)

// jsonDesign is what a design says besides its pieces; nothing of a cutting
// list.
type jsonDesign struct {
	Size     string      `json:"size,omitempty"`
	Finished *jsonSize   `json:"finished,omitempty"`
	Batting  *jsonSize   `json:"batting,omitempty"`
	Blocks   []jsonBlock `json:"blocks,omitempty"`
	Units    []jsonUnit  `json:"units,omitempty"`
	Notes    []string    `json:"notes,omitempty"`
}

type jsonSize struct {
	Width  json.Number `json:"width"`
	Height json.Number `json:"height"`
}

type jsonBlock struct {
	Block     string `json:"block"`
	Colourway string `json:"colourway"`
	Count     int    `json:"count"`
}

type jsonUnit struct {
	Unit    string     `json:"unit"`
	Fabrics []string   `json:"fabrics"`
	Count   int        `json:"count"`
	Made    int        `json:"made"`
	Trims   []jsonTrim `json:"trims"`
}

type jsonTrim struct {
	Step       string      `json:"step"`
	Width      json.Number `json:"width"`
	Height     json.Number `json:"height"`
	SeamToEdge json.Number `json:"seam_to_edge"`
	AllRound   bool        `json:"all_round"`
}

func newJSONDesign(w design.Whole) jsonDesign {
	number := func(l model.Length) json.Number { return json.Number(l.Decimal(w.Quilt.Unit)) }
	out := jsonDesign{Size: w.Size, Notes: w.Notes}
	if w.Width.Sign() > 0 {
		out.Finished = &jsonSize{number(onMark(w.Width, w.Quilt.Ruler)), number(onMark(w.Height, w.Quilt.Ruler))}
	}
	if w.BattingWidth > 0 {
		out.Batting = &jsonSize{number(w.BattingWidth), number(w.BattingHeight)}
	}
	for _, b := range w.Blocks {
		out.Blocks = append(out.Blocks, jsonBlock{b.Block, b.Colourway, b.Count})
	}
	for _, c := range w.Charts {
		unit := jsonUnit{Unit: c.Name, Fabrics: c.Fabrics, Count: c.Count, Made: c.Made, Trims: []jsonTrim{}}
		for _, t := range c.Trims {
			unit.Trims = append(unit.Trims, jsonTrim{t.Step, number(t.Width), number(t.Height), number(t.SeamToEdge), t.AllRound})
		}
		out.Units = append(out.Units, unit)
	}
	return out
}

// jsonSizes is a quilt in several sizes.
type jsonSizes[T any] struct {
	Title string `json:"title"`
	Unit  string `json:"unit"`
	Sizes []T    `json:"sizes"`
}

// WriteSizesJSON writes the plans of a quilt in several sizes for programs to
// read: of each size what [WriteJSON] writes.
func WriteSizesJSON(w io.Writer, sizes []Quilt) error {
	out := jsonSizes[jsonQuilt]{Title: sizes[0].Title, Unit: sizes[0].Unit.String()}
	for _, q := range sizes {
		out.Sizes = append(out.Sizes, newJSONQuilt(newRows(q)))
	}
	return writeJSON(w, out)
}

// jsonPieces is what is cut for a quilt.
type jsonPieces struct {
	Title string `json:"title"`
	Unit  string `json:"unit"`
	jsonDesign
	Fabrics []jsonCuts `json:"fabrics"`
}

type jsonCuts struct {
	ID     string       `json:"id"`
	Name   string       `json:"name"`
	Pieces []jsonCut    `json:"pieces"`
	Strips []jsonStrips `json:"strips"`
}

type jsonCut struct {
	Piece  string      `json:"piece"`
	Use    string      `json:"use"`
	Width  json.Number `json:"width"`
	Height json.Number `json:"height"`
	Count  int         `json:"count"`
	Halve  string      `json:"halve"`
}

type jsonStrips struct {
	Piece  string            `json:"piece"`
	Use    string            `json:"use"`
	Height json.Number       `json:"height"`
	Counts []jsonStripsCount `json:"counts"`
}

type jsonStripsCount struct {
	UsableWidth json.Number `json:"usable_width"`
	Count       int         `json:"count"`
}

// WritePiecesJSON writes what is cut for a quilt for programs to read. With
// more than one size it writes them all. The error is that of
// [model.Quilt.CutList], or of the writer.
func WritePiecesJSON(w io.Writer, wholes []design.Whole) error {
	lists, err := listsOf(wholes)
	if err != nil {
		return err
	}
	out := jsonSizes[jsonPieces]{Title: lists[0].Title, Unit: lists[0].Unit.String()}
	for i, list := range lists {
		out.Sizes = append(out.Sizes, newJSONPieces(list, wholes[i]))
	}
	if len(out.Sizes) == 1 {
		return writeJSON(w, out.Sizes[0])
	}
	return writeJSON(w, out)
}

func newJSONPieces(list model.CutList, whole design.Whole) jsonPieces {
	number := func(l model.Length) json.Number { return json.Number(l.Decimal(list.Unit)) }
	out := jsonPieces{Title: list.Title, Unit: list.Unit.String(), jsonDesign: newJSONDesign(whole), Fabrics: []jsonCuts{}}
	for _, f := range list.Fabrics {
		cuts := jsonCuts{ID: f.Fabric.ID, Name: f.Fabric.Name, Pieces: []jsonCut{}, Strips: []jsonStrips{}}
		for _, p := range f.Pieces {
			cuts.Pieces = append(cuts.Pieces, jsonCut{p.Name, p.Use, number(p.Along), number(p.Across), p.Count, p.Halve.String()})
		}
		for _, s := range f.Strips {
			strips := jsonStrips{Piece: s.Name, Use: s.Use, Height: number(s.Height)}
			for _, width := range f.Fabric.UsableWidths {
				strips.Counts = append(strips.Counts, jsonStripsCount{number(width), s.Strips(width)})
			}
			cuts.Strips = append(cuts.Strips, strips)
		}
		out.Fabrics = append(out.Fabrics, cuts)
	}
	return out
}
