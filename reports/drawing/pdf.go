package drawing

import (
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// FontFamily is the family that NewPDF gives a document, regular and bold.
const FontFamily = "go"

// documentDate stands for the time of writing, so that the same content gives
// the same bytes.
var documentDate = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// NewPDF is an empty document in points, with its fonts. Pages have a size of
// their own, or else the one given.
func NewPDF(title string, width, height float64) *fpdf.Fpdf {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: width, Ht: height}})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(documentDate)
	pdf.SetModificationDate(documentDate)
	pdf.SetProducer("crossgrain", true)
	pdf.SetCreator("crossgrain", true)
	pdf.SetTitle(Printable(title), true)
	pdf.SetLang("en")
	pdf.AddUTF8FontFromBytes(FontFamily, "", goregular.TTF)
	pdf.AddUTF8FontFromBytes(FontFamily, "B", gobold.TTF)
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	return pdf
}

// WritePDF writes a sheet as a document of one page of its size.
func WritePDF(w io.Writer, s Sheet) error {
	pdf := NewPDF(s.Title, float64(s.Width), float64(s.Height))
	pdf.AddPage()
	for _, p := range s.Parts {
		Place(pdf, p.Drawing, float64(p.X), float64(p.Y))
	}
	return pdf.Output(w)
}

// Place puts a drawing on the current page of a document made by NewPDF, with
// its upper left corner at (x, y).
func Place(pdf *fpdf.Fpdf, d Drawing, x, y float64) {
	o := onPage{pdf, d, x, y}
	for _, item := range d.Items {
		switch item := item.(type) {
		case Shape:
			o.shape(item)
		case Line:
			o.line(item.Points, item.Stroke)
		case Text:
			o.text(item)
		}
	}
	pdf.SetDashPattern(nil, 0)
}

// onPage is a drawing at its place.
type onPage struct {
	pdf  *fpdf.Fpdf
	d    Drawing
	x, y float64
}

func (o onPage) place(p Point) fpdf.PointType {
	scale := float64(o.d.Scale)
	return fpdf.PointType{X: o.x + float64(p.X-o.d.From.X)/scale, Y: o.y + float64(p.Y-o.d.From.Y)/scale}
}

func (o onPage) shape(s Shape) {
	places := make([]fpdf.PointType, len(s.Outline))
	for i, p := range s.Outline {
		places[i] = o.place(p)
	}
	if !s.Hollow {
		o.pdf.SetFillColor(int(s.Fill), int(s.Fill), int(s.Fill))
		o.pdf.Polygon(places, "F")
	}
	for _, l := range s.Hatch.segments(s.Outline) {
		o.line(l[:], s.Hatch.Stroke)
	}
	if s.Stroke.Width > 0 {
		o.pen(s.Stroke)
		o.pdf.Polygon(places, "D")
	}
}

// pen sets how lines are drawn.
func (o onPage) pen(s Stroke) {
	scale := float64(o.d.Scale)
	o.pdf.SetDrawColor(int(s.Tone), int(s.Tone), int(s.Tone))
	o.pdf.SetLineWidth(float64(s.Width) / scale)
	if s.Dash > 0 {
		o.pdf.SetDashPattern([]float64{float64(s.Dash) / scale, float64(s.Gap) / scale}, 0)
	} else {
		o.pdf.SetDashPattern(nil, 0)
	}
}

func (o onPage) line(g []Point, s Stroke) {
	if s.Width == 0 || len(g) < 2 {
		return
	}
	o.pen(s)
	first := o.place(g[0])
	o.pdf.MoveTo(first.X, first.Y)
	for _, p := range g[1:] {
		next := o.place(p)
		o.pdf.LineTo(next.X, next.Y)
	}
	o.pdf.DrawPath("D")
}

func (o onPage) text(t Text) {
	style := ""
	if t.Bold {
		style = "B"
	}
	o.pdf.SetFont(FontFamily, style, float64(t.Size)/float64(o.d.Scale))
	o.pdf.SetTextColor(int(t.Tone), int(t.Tone), int(t.Tone))
	at := o.place(t.start())
	if t.Upward {
		o.pdf.TransformBegin()
		o.pdf.TransformRotate(90, at.X, at.Y)
		defer o.pdf.TransformEnd()
	}
	o.pdf.Text(at.X, at.Y, Printable(t.Text))
}
