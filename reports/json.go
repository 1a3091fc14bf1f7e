package reports

import (
	"encoding/json"
	"io"

	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// WriteJSON writes every plan for programs to read, indented, with a newline
// at the end. Dimensions are exact decimal numbers in the quilt's unit.
func WriteJSON(w io.Writer, q Quilt) error {
	return writeJSON(w, newJSONQuilt(newRows(q)))
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

type jsonQuilt struct {
	Title string `json:"title"`
	Unit  string `json:"unit"`
	jsonDesign
	Fabrics []jsonFabric `json:"fabrics"`
}

type jsonFabric struct {
	ID    string     `json:"id"`
	Name  string     `json:"name"`
	Plans []jsonPlan `json:"plans"`
}

type jsonPlan struct {
	UsableWidth  json.Number `json:"usable_width"`
	Style        string      `json:"style"`
	Strips       []jsonStrip `json:"strips"`
	StripCount   int         `json:"strip_count"`
	LayoutCount  int         `json:"layout_count"`
	Length       json.Number `json:"length"`
	LengthBound  json.Number `json:"length_bound"`
	BoundBy      string      `json:"length_bound_by"`
	LengthProven bool        `json:"length_proven"`
	StripsProven bool        `json:"strips_proven"`
	Buy          jsonBuy     `json:"buy"`
	Plain        jsonPlain   `json:"plain"`
	UsedShare    json.Number `json:"used_share"`
}

type jsonStrip struct {
	Height   json.Number   `json:"height"`
	Repeat   int           `json:"repeat"`
	Offcut   json.Number   `json:"offcut"`
	Segments []jsonSegment `json:"segments"`
}

type jsonSegment struct {
	Along  json.Number `json:"along"`
	Repeat int         `json:"repeat"`
	Stack  []jsonPiece `json:"stack"`
}

type jsonPiece struct {
	Piece  string      `json:"piece"`
	Along  json.Number `json:"along"`
	Across json.Number `json:"across"`
	Turned bool        `json:"turned"`
}

type jsonPurchase struct {
	Length json.Number `json:"length"`
	Text   string      `json:"text"`
}

type jsonBuy struct {
	jsonPurchase
	Proven bool        `json:"proven"`
	By     string      `json:"proven_by,omitempty"`
	Cost   json.Number `json:"cost,omitempty"`
}

type jsonPlain struct {
	Length     json.Number  `json:"length"`
	StripCount int          `json:"strip_count"`
	Buy        jsonPurchase `json:"buy"`
}

func newJSONQuilt(q quiltRows) jsonQuilt {
	out := jsonQuilt{Title: q.title, Unit: q.unit.String(), jsonDesign: newJSONDesign(q.design.whole), Fabrics: []jsonFabric{}}
	for _, f := range q.fabrics {
		fabric := jsonFabric{ID: f.fabric.ID, Name: f.fabric.Name, Plans: []jsonPlan{}}
		for _, w := range f.widths {
			fabric.Plans = append(fabric.Plans, newJSONPlan(w, f.fabric, q.unit))
		}
		out.Fabrics = append(out.Fabrics, fabric)
	}
	return out
}

func newJSONPlan(w widthRows, f model.Fabric, u model.Unit) jsonPlan {
	number := func(l model.Length) json.Number { return json.Number(l.Decimal(u)) }
	buys := func(p yardage.Purchase) jsonPurchase { return jsonPurchase{number(p.Length), p.Text} }
	out := jsonPlan{
		UsableWidth:  number(w.Width),
		Style:        w.Result.Plan.Style.String(),
		Strips:       []jsonStrip{},
		StripCount:   w.stripCount,
		LayoutCount:  w.layoutCount,
		Length:       number(w.length),
		LengthBound:  number(w.Result.Bound),
		BoundBy:      w.Result.BoundBy.String(),
		LengthProven: w.Result.LengthProven(),
		StripsProven: w.Result.FewestStrips,
		Buy:          jsonBuy{jsonPurchase: buys(w.Buy), Proven: w.BuyProven, Cost: json.Number(cost(w, f))},
		Plain: jsonPlain{
			Length:     number(w.Plain.Length()),
			StripCount: w.Plain.StripCount(),
			Buy:        buys(w.PlainBuy),
		},
		UsedShare: json.Number(w.usedShare),
	}
	if w.BuyProven {
		out.Buy.By = w.Result.PurchaseBy.String()
	}
	for _, s := range w.Result.Plan.Strips {
		out.Strips = append(out.Strips, newJSONStrip(s, w.pieces, number))
	}
	return out
}

func newJSONStrip(s pack.Strip, pieces []pieceRow, number func(model.Length) json.Number) jsonStrip {
	out := jsonStrip{Height: number(s.Height), Repeat: s.Repeat, Offcut: number(s.Offcut)}
	for _, g := range s.Segments {
		segment := jsonSegment{Along: number(g.Along), Repeat: g.Repeat}
		for _, p := range g.Stack {
			segment.Stack = append(segment.Stack, jsonPiece{
				pieces[p.Item].Name, number(p.Along), number(p.Across), p.Turned,
			})
		}
		out.Segments = append(out.Segments, segment)
	}
	return out
}
