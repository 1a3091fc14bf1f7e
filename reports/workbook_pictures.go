package reports

import (
	"bytes"
	"runtime"
	"sync"

	"github.com/xuri/excelize/v2"

	"crossgrain/reports/drawing"
)

// picture is a drawing that is to be put on a sheet.
type picture struct {
	sheet, cell string
	drawing     drawing.Drawing
	png         bytes.Buffer
	err         error
}

// How pictures stand on a sheet.
const (
	pictureGap     = 4   // around a picture, in points
	tallestPicture = 400 // of one that is higher than the list beside it, in points
	pictureDots    = 1.5 // for one of the screen
)

// onTheCloth puts a picture of the cloth beside the strips of a plan, which
// begin at a row, and goes on below it.
func (s *sheet) onTheCloth(p *planAt, from int) {
	if s.plain {
		return
	}
	wide := int(points(s.columns[clothColumn].width, digitPixels)) - 2*pictureGap
	most := max(int(s.total(from, s.row)), tallestPicture)
	d := clothDrawing(p.cuts, p.widthRows, p.quilt, room{width: wide})
	if _, high := d.Size(); high > most {
		d = clothDrawing(p.cuts, p.widthRows, p.quilt, room{wide, most})
	}
	s.pictures = append(s.pictures, &picture{sheet: s.name, cell: cellName(clothColumn, from), drawing: d})
	_, high := d.Size()
	for s.total(from, s.row) < float64(high+2*pictureGap) {
		s.next()
	}
}

// addPictures draws the pictures, on all cores, and puts them on their sheets.
func (b *book) addPictures() {
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	var wg sync.WaitGroup
	for _, p := range b.pictures {
		free <- struct{}{}
		wg.Go(func() {
			defer func() { <-free }()
			p.err = drawing.WritePNG(&p.png, drawing.Alone(p.drawing), pictureDots*screenDPI)
		})
	}
	wg.Wait()
	const offset = pictureGap * screenDPI / pointsPerInch
	for _, p := range b.pictures {
		b.do(p.err)
		b.do(b.file.AddPictureFromBytes(p.sheet, p.cell, &excelize.Picture{
			Extension: ".png", File: p.png.Bytes(), Format: &excelize.GraphicOptions{
				AltText: unglued(p.drawing.Title), ScaleX: 1 / pictureDots, ScaleY: 1 / pictureDots,
				OffsetX: offset, OffsetY: offset, Positioning: "oneCell",
			},
		}))
	}
}
