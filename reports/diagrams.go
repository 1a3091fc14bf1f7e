package reports

import (
	"fmt"
	"io"
	"slices"

	"crossgrain/model/block"
	"crossgrain/reports/drawing"
)

// figure is a drawing and what stands below it.
type figure struct {
	drawing.Drawing
	caption string
}

// designFigures are the drawings of a design, apart from its cloth.
type designFigures struct {
	quilt  []figure // the setting, if there is one
	blocks []figure
	units  []figure // with strip sets
	rounds []roundFigures
	// fabrics are the labels of those that are seen.
	fabrics []string
}

// roundFigures are the steps of one block of rounds.
type roundFigures struct {
	caption string
	steps   []figure
}

// What of a design is drawn.
const (
	allFigures = false
	onlyQuilt  = true
)

// newDesignFigures draws a design, or of it only the quilt; nothing of a cutting
// list. The room is that of the setting; the others take a part of it.
func newDesignFigures(d designRows, r room, quiltOnly bool) designFigures {
	var f designFigures
	w := d.whole
	if w.Width.Sign() <= 0 {
		return f
	}
	shapes := w.Shapes()
	if len(shapes) > 0 {
		f.quilt = []figure{{settingDrawing(w, shapes, r), "The quilt, finished " + d.finished}}
	}
	for _, fabric := range w.Quilt.Fabrics {
		if slices.ContainsFunc(shapes, func(s block.Shape) bool { return s.Fabric == fabric.ID }) {
			f.fabrics = append(f.fabrics, fabric.ID)
		}
	}
	if quiltOnly {
		return f
	}
	small := room{r.width / 3, r.width / 3}
	for _, b := range w.Blocks {
		if w.Block(b).Width.Sign() > 0 {
			caption := fmt.Sprintf("Block %s: %d", blockLabel(b.Block, b.Colourway), b.Count)
			f.blocks = append(f.blocks, figure{blockDrawing(b, w, small), caption})
		}
	}
	sets := slices.Clone(d.sets)
	for _, c := range w.Charts {
		if w.Unit(c).Width.Sign() <= 0 {
			continue
		}
		caption := fmt.Sprintf("Unit %s: %d", clean(c.Name), c.Count)
		for range c.Sets {
			f.units = append(f.units, figure{setDrawing(clean(c.Name), sets[0], w.Quilt, room{r.width / 3, r.width / 4}),
				"Strip set of " + clean(c.Name)})
			sets = sets[1:]
		}
		if steps := roundDrawings(c, w, room{r.width/4 - 12, r.width / 4}); len(steps) > 0 {
			round := roundFigures{caption: fmt.Sprintf("Block %s, round by round", clean(c.Name))}
			for i, s := range steps {
				round.steps = append(round.steps, figure{s, capital(clean(c.Trims[i].Step))})
			}
			f.rounds = append(f.rounds, round)
			continue
		}
		f.units = append(f.units, figure{unitDrawing(c, w, room{r.width / 2, r.width / 4}), caption})
	}
	return f
}

// poster puts drawings on one sheet, row by row.
type poster struct {
	sheet     drawing.Sheet
	x, y, row int
}

// Sizes of the poster, in points.
const (
	posterWidth  = 1120
	posterMargin = 30
	posterGap    = 22
	clothWidth   = 519 // two beside each other
)

// diagramSheet has all drawings of a quilt, in each of its sizes.
func diagramSheet(quilts []Quilt) drawing.Sheet {
	p := &poster{x: posterMargin, y: posterMargin}
	for i, q := range quilts {
		rows := newRows(q)
		if i == 0 {
			p.sheet.Title = unglued(rows.heading())
			p.heading(rows.heading(), 200)
		}
		p.quilt(rows)
	}
	p.next()
	p.sheet.Width, p.sheet.Height = posterWidth, p.y+posterMargin-posterGap
	return p.sheet
}

func (p *poster) quilt(q quiltRows) {
	if about := q.design.about(); about != "" {
		p.heading(about, 110)
	}
	figures := newDesignFigures(q.design, room{480, 460}, allFigures)
	for _, f := range slices.Concat(figures.quilt, figures.blocks) {
		p.figure(f)
	}
	if len(figures.fabrics) > 0 {
		list := q.design.whole.Quilt.Fabrics
		p.put(fabricLegend(figures.fabrics, list, newPalette(list), room{width: 200}))
	}
	p.next()
	for _, f := range figures.units {
		p.figure(f)
	}
	for _, r := range figures.rounds {
		p.heading(r.caption, 130)
		for _, s := range r.steps {
			p.figure(s)
		}
	}
	for _, f := range q.fabrics {
		if f.nothing() {
			continue
		}
		p.heading(f.label, 150)
		for _, w := range f.widths {
			d := clothDrawing(f, w, q, room{width: clothWidth})
			p.figure(figure{d, fmt.Sprintf("%s at %s: buy %s", f.label, measure(w.Width, q.unit), w.Buy.Text)})
		}
	}
}

// next begins a new row.
func (p *poster) next() {
	if p.row > 0 {
		p.x, p.y, p.row = posterMargin, p.y+p.row+posterGap, 0
	}
}

func (p *poster) put(d drawing.Drawing) {
	width, height := d.Size()
	if p.x > posterMargin && p.x+width > posterWidth-posterMargin {
		p.next()
	}
	p.sheet.Parts = append(p.sheet.Parts, drawing.Part{X: p.x, Y: p.y, Drawing: d})
	p.x, p.row = p.x+width+posterGap, max(p.row, height)
}

// figure puts a drawing with its caption above it.
func (p *poster) figure(f figure) {
	width, height := f.Size()
	width = max(width, 120)
	if p.x > posterMargin && p.x+width > posterWidth-posterMargin {
		p.next()
	}
	caption := textDrawing(f.caption, 90, width)
	_, above := caption.Size()
	p.sheet.Parts = append(p.sheet.Parts,
		drawing.Part{X: p.x, Y: p.y, Drawing: caption},
		drawing.Part{X: p.x, Y: p.y + above, Drawing: f.Drawing})
	p.x, p.row = p.x+width+posterGap, max(p.row, above+height)
}

// heading is a row of its own.
func (p *poster) heading(s string, size int) {
	p.next()
	p.put(textDrawing(s, size, posterWidth-2*posterMargin))
	p.next()
	p.y -= posterGap / 2
}

// textDrawing is a text by itself, broken into lines no wider than the room.
func textDrawing(s string, size, width int) drawing.Drawing {
	c := newCanvas(s, 72_00, 72)
	y := c.tenths(size * 7 / 10)
	for _, l := range wrapBy(unglued(s), int(c.tenths(10*width)), func(s string) int { return int(c.textWidth(s, size, true)) }) {
		c.write(drawing.Point{Y: y}, l, writing{size: size, bold: true})
		y += c.tenths(size * 13 / 10)
	}
	c.show(drawing.Point{}, drawing.Point{X: c.tenths(10 * width), Y: y - c.tenths(size*3/10)})
	return c.Drawing
}

// WriteSVG writes all drawings of a quilt, in one or several sizes, on one
// sheet: the cloth with its strips, the setting, blocks and units. The same
// quilts give the same bytes; so do WritePNG and WriteDiagramsPDF.
func WriteSVG(w io.Writer, quilts []Quilt) error { return drawing.WriteSVG(w, diagramSheet(quilts)) }

// pictureDPI is how finely pictures are drawn.
const pictureDPI = 132

// WritePNG writes the sheet of WriteSVG as a picture.
func WritePNG(w io.Writer, quilts []Quilt) error {
	return drawing.WritePNG(w, diagramSheet(quilts), pictureDPI)
}
