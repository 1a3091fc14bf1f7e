package reports

import (
	_ "embed"
	"fmt"
	"hash/fnv"
	"html/template"
	"io"
	"slices"
	"strings"

	"crossgrain/model"
	"crossgrain/reports/drawing"
)

// What a page is made of.
var (
	//go:embed page/page.html
	pageHTML string
	//go:embed page/page.css
	pageCSS string
	//go:embed page/page.js
	pageJS string

	pageTemplate = template.Must(template.New("page").Parse(pageHTML))
)

// WritePage writes a quilt, in one or several sizes, as a page for a browser: one
// file that asks for nothing from outside. It switches between sizes and usable
// widths, and the browser remembers which steps are ticked. The same quilts give
// the same bytes.
func WritePage(w io.Writer, quilts []Quilt) error {
	return pageTemplate.Execute(w, newPage(quilts))
}

// page is what the template shows. Texts are as they are printed.
type page struct {
	Title, Paper, Key string
	CSS               template.CSS
	JS                template.JS
	Several           bool
	Sizes             []pageSize
	Widths            []pageWidth
	Cautions          []string
	Words             []pageWord
}

type pageWord struct{ Word, Meaning string }

// pageWidth is a usable width: in ticks for the switch, and as text.
type pageWidth struct {
	Ticks int64
	Text  string
}

type pageFigure struct {
	SVG     template.HTML
	Caption string
}

// pageSize is all of one size.
type pageSize struct {
	Index                      int
	Name, About                string
	Priced, Compares           bool
	Fabrics                    []pageFabric
	Quilt, Blocks, UnitFigures []pageFigure
	Units                      []pageUnit
	Grown                      []pageGrown
	Sets, Notes                []string
}

type pageFabric struct {
	ID, Label string
	Widths    string // of its plans, in ticks, with spaces between
	Pieces    []pagePiece
	Plans     []pagePlan
}

type pagePiece struct{ Label, Count, Size, Halve, Use string }

// pagePlan is one fabric at one usable width.
type pagePlan struct {
	pageBuy
	Ticks                    int64
	Width                    string
	Heading, About, Together string
	Cloth                    template.HTML
	Steps, Halve             []pageStep
}

// pageBuy is a purchase; its length is a number in the quilt's unit.
type pageBuy struct {
	BuyLength                     string
	Buy, Cost, Hand, Saved, Known string
	Proven                        bool
}

// pageStep is a step to tick, under a key of its own.
type pageStep struct {
	Key, Text, Left string
	Number          int // 0 if it has none
	Cuts            []string
}

type pageUnit struct{ Label, Count, Trim, Fabrics string }

type pageGrown struct {
	Heading, Lead string
	Steps         []pageStep
	Figures       []pageFigure
}

func newPage(quilts []Quilt) page {
	var rows []quiltRows
	for _, q := range quilts {
		rows = append(rows, newRows(q))
	}
	p := page{
		Title: words(rows[0].heading()), Paper: map[model.Unit]string{model.Inches: "letter", model.Centimetres: "A4"}[rows[0].unit],
		CSS: template.CSS(pageCSS), JS: template.JS(pageJS),
		Several: len(quilts) > 1,
	}
	for _, c := range cautions {
		p.Cautions = append(p.Cautions, words(c))
	}
	for i, q := range rows {
		p.Sizes = append(p.Sizes, newPageSize(i, q))
		p.addWidths(q)
		p.addWords(q)
	}
	slices.SortFunc(p.Widths, func(a, b pageWidth) int { return int(a.Ticks - b.Ticks) })
	p.Key = fingerprint(p.Sizes)
	return p
}

// fingerprint tells pages apart, so that ticks of one plan are not taken for
// those of another.
func fingerprint(sizes []pageSize) string {
	h := fnv.New64a()
	for _, s := range sizes {
		for _, f := range s.Fabrics {
			for _, p := range f.Plans {
				fmt.Fprintln(h, s.Name, f.ID, p.Ticks, p.BuyLength, p.Steps, p.Halve)
			}
		}
		fmt.Fprintln(h, s.Grown)
	}
	return fmt.Sprintf("%016x", h.Sum64())
}

func (p *page) addWidths(q quiltRows) {
	for _, f := range q.fabrics {
		for _, w := range f.widths {
			width := pageWidth{int64(w.Width), words(measure(w.Width, q.unit))}
			if !slices.Contains(p.Widths, width) {
				p.Widths = append(p.Widths, width)
			}
		}
	}
}

func (p *page) addWords(q quiltRows) {
	for _, t := range terms(q) {
		if !slices.ContainsFunc(p.Words, func(w pageWord) bool { return w.Word == t.word }) {
			p.Words = append(p.Words, pageWord{t.word, words(t.meaning)})
		}
	}
}

func newPageSize(i int, q quiltRows) pageSize {
	s := pageSize{
		Index: i, Name: q.design.size, About: words(q.design.about()), Compares: q.compares(),
		Priced: slices.ContainsFunc(q.fabrics, func(f fabricRows) bool { return f.fabric.Price > 0 }),
	}
	for n, f := range q.fabrics {
		s.Fabrics = append(s.Fabrics, newPageFabric(fmt.Sprintf("%d.%d", i, n), f, q))
	}
	figures := newDesignFigures(q.design, room{520, 420}, allFigures)
	s.Quilt, s.Blocks, s.UnitFigures = pageFigures(figures.quilt), pageFigures(figures.blocks), pageFigures(figures.units)
	if len(figures.fabrics) > 0 {
		list := q.design.whole.Quilt.Fabrics
		legend := fabricLegend(figures.fabrics, list, newPalette(list), room{width: 200})
		s.Quilt = append(s.Quilt, pageFigure{SVG: svgOf(legend), Caption: "Fabrics"})
	}
	for _, u := range q.design.units {
		s.Units = append(s.Units, pageUnit{u.label, fmt.Sprint(u.count), words(trimTo(u.trim, q.unit)), u.fabrics})
	}
	for n, g := range q.design.grown {
		grown := pageGrown{
			Heading: words(fmt.Sprintf("Step by step: %s, %d of them", g.label, g.count)),
			Lead:    strings.TrimSpace(testBlock + " " + g.leftHand()),
		}
		for _, step := range g.steps {
			grown.Steps = append(grown.Steps, pageStep{Key: fmt.Sprintf("%d.make.%d.%d", i, n, step.number), Number: step.number, Text: words(step.how(q.unit))})
		}
		if n < len(figures.rounds) {
			grown.Figures = pageFigures(figures.rounds[n].steps)
		}
		s.Grown = append(s.Grown, grown)
	}
	for _, set := range q.design.sets {
		s.Sets = append(s.Sets, words(set.sew(q.unit)))
	}
	for _, n := range q.design.notes {
		s.Notes = append(s.Notes, words(n))
	}
	return s
}

func pageFigures(figures []figure) []pageFigure {
	var all []pageFigure
	for _, f := range figures {
		all = append(all, pageFigure{svgOf(f.Drawing), words(f.caption)})
	}
	return all
}

// svgOf is a drawing for the template: SVG writes nothing that is not escaped.
func svgOf(d drawing.Drawing) template.HTML { return template.HTML(drawing.SVG(d)) }

func newPageFabric(key string, f fabricRows, q quiltRows) pageFabric {
	fabric := pageFabric{ID: f.fabric.ID, Label: f.label}
	for _, p := range f.pieces {
		fabric.Pieces = append(fabric.Pieces, pagePiece{p.label, fmt.Sprint(p.Count), words(size(p.Along, p.Across, q.unit)), p.Halve.String(), words(clean(p.Use))})
	}
	for _, n := range f.strips {
		fabric.Pieces = append(fabric.Pieces, pagePiece{n.label, fmt.Sprint(n.count), words(stripSize(n, q.unit)), "", words(clean(n.Use))})
	}
	for _, w := range f.widths {
		fabric.Widths = strings.TrimSpace(fmt.Sprintf("%s %d", fabric.Widths, w.Width))
		fabric.Plans = append(fabric.Plans, newPagePlan(fmt.Sprintf("%s.%d", key, w.Width), f, w, q))
	}
	return fabric
}

func newPagePlan(key string, f fabricRows, w widthRows, q quiltRows) pagePlan {
	p := pagePlan{
		pageBuy: pageBuy{BuyLength: w.Buy.Length.Decimal(q.unit), Buy: words(w.Buy.Text), Cost: costOf(w, f),
			Hand: words(w.PlainBuy.Text), Saved: words(w.Saved.Text), Proven: w.BuyProven},
		Ticks: int64(w.Width), Width: words(measure(w.Width, q.unit)),
		Heading: words(fmt.Sprintf("%s, usable width %s: buy %s", f.label, measure(w.Width, q.unit), w.Buy.Text)),
		About:   words(about(w, f.fabric, q)),
	}
	if !w.BuyProven {
		p.Known = words(fmt.Sprintf("%s at %s: %s.", f.label, measure(w.Width, q.unit), known(w, f.fabric)))
	}
	if f.nothing() {
		p.Heading, p.About = words(f.label+": nothing is cut from it"), ""
		return p
	}
	p.Together = words(together(w))
	p.Cloth = svgOf(clothDrawing(f, w, q, room{width: 700}))
	for _, s := range w.strips {
		p.Steps = append(p.Steps, newPageStep(fmt.Sprintf("%s.%d", key, s.number), s, q.unit))
	}
	for _, piece := range f.pieces {
		if piece.triangles > 0 {
			p.Halve = append(p.Halve, pageStep{Key: key + ".halve." + piece.label, Text: words(halve(piece))})
		}
	}
	return p
}

func newPageStep(key string, s stripRow, u model.Unit) pageStep {
	first, cuts, left := stepWords(s, u)
	step := pageStep{Key: key, Number: s.number, Text: words(first), Left: words(left)}
	for _, c := range cuts {
		step.Cuts = append(step.Cuts, words(c))
	}
	return step
}
