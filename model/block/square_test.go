package block

import (
	"testing"

	"crossgrain/model"
)

func TestRectanglePublished(t *testing.T) {
	const source = "Karen Combs, Formulas for Quilters: finished + 1/2"
	y := Rectangle{Width: 12 * in, Height: 12 * in, Fabric: "ink"}.Make(inches, 4)
	compareCuts(t, source, y, printedCut{"ink", "12 1/2", "12 1/2", 4})
	if y.Cuts[0].Use != "squares" {
		t.Errorf("a square is for %s", y.Cuts[0].Use)
	}
	y = Rectangle{Width: 2 * in, Height: 3 * in / 2, Fabric: "ink"}.Make(inches, 1)
	compareCuts(t, source, y, printedCut{"ink", "2 1/2", "2", 1})
	if y.Cuts[0].Use != "rectangles" {
		t.Errorf("a rectangle is for %s", y.Cuts[0].Use)
	}
}

func TestRectangleFaults(t *testing.T) {
	checkFaults(t, inches,
		faultTest{Rectangle{2 * in, 2 * in, ""}, model.ErrMissing, `unit "x": fabric: missing, write the fabric that the piece is cut from`},
		faultTest{Rectangle{0, 0, "ink"}, model.ErrNotPositive, `unit "x": square: not more than 0 ("0 in"), write the finished size`},
		faultTest{Rectangle{2 * in, in / 16, "ink"}, model.ErrOffMark,
			`unit "x": rectangle: off the ruler's mark ("1/16 in"), with its seams it is 9/16 in: write 1/8, or a finer ruler`},
	)
}
