package block

import (
	"slices"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Rounds is a square block that grows from a centre by rounds, each trimmed
// before the next is sewn. Its centre stands on point if the block would not
// close upright otherwise, as in a square in a square of one round.
//
// All is given by lines at a finished half-distance from the centre: straight
// ones, parallel to the block's sides, a₀ = c/2, a₁ …, and diagonal ones, at
// 45°, d₁, d₂ …. The block is closed when the last straight line is half its
// side.
//
//   - Triangles on a square of side q have the long side q, and are halves of
//     squares of q/√2 + s(2+√2); the new square has the side q√2 (centre 2,
//     then 2.828, then 4).
//   - A trimmed log from a₀ to a₁ is the trapezoid a₀ ≤ y ≤ a₁, |x| + y ≤ D√2,
//     where D is the diagonal line that it is trimmed to right after it is
//     sewn, the seam of the next diagonal round; likewise with the roles
//     exchanged. Before the first diagonal log, D = a₀√2: the corners of the
//     square that is there.
//   - A log is cut (a₁ − a₀) + 2s high. Its cut length is its longer raw edge:
//     for a trimmed log the inner one, 2(D√2 − a₀) + 2s + 2s√2; else its
//     finished length + 2s.
//   - Corner triangles have the long side 2(A√2 − d), with A half the block's
//     side and d the last diagonal line.
//   - After each round the block is trimmed: from edge to edge 2h + 2s, from
//     the last seam to the edge h₁ − h₀ + s (1 1/4 for rounds of 1 in), where
//     the seam is the last one along that edge; and s beyond the points of the
//     square within. Trimmed logs and triangles are trimmed along the lines of
//     the other family: that cuts the ends of the pieces, and the outer edges
//     of the round before.
//
// Checked by sums: centre 2, two rounds of triangles, straight lines 1 to 6 and
// diagonal lines √2, 2√2, 2√2+1, 2√2+2, 2√2+3 fill 144 square inches.
//
// The shapes are the centre, if it is of one piece, and then four of each round;
// the outline of each begins with its inner edge, the seam.
//
// The trade's ease is 1/4 in, for triangles and for both sizes of trimmed logs
// (common practice, 1/4 to 1/2, no source); logs around or opposite have none.
type Rounds struct {
	Side   model.Length // the finished block
	Centre Centre
	Rounds []Round
}

// Centre is what a block of rounds grows from: a square of one fabric, or a
// unit that is square.
type Centre struct {
	// Side is the finished side; 0 leaves it to be worked out from the block
	// and its rounds. It may then be a surd, as in a square in a square of one
	// round: side/√2.
	Side   model.Length
	Fabric string // of a centre of one piece
	Unit   string // the label of a unit, in place of Side and Fabric
}

// Round is what is sewn to the four sides at one step.
type Round struct {
	Kind RoundKind
	// Width is the finished width of logs; 0 for triangles. Logs may leave it 0
	// too: all that do are alike, and as wide as closes the block.
	Width model.Length
	// Fabrics are one for all four sides, or four: the top, right, bottom and
	// left side of a straight round; the upper right, lower right, lower left
	// and upper left side of a diagonal one.
	Fabrics []string
	Ease    Ease
}

// RoundKind is how a round is sewn.
type RoundKind uint8

// The kinds of rounds.
const (
	// Triangles are four right triangles, each with its long side on one side
	// of the square, which turns by 45° and doubles in area.
	Triangles RoundKind = iota
	// LogsAround go round the square one after another, clockwise from the
	// first side, each as long as the side it meets: log cabin.
	LogsAround
	// LogsOpposite are sewn in pairs: the first and third side, then the
	// second and fourth across their ends: courthouse steps.
	LogsOpposite
	// LogsTrimmed are sewn to the four sides, and then trimmed along the lines
	// of the other family, straight for diagonal logs and diagonal for
	// straight ones: pineapple. The sides that they go on alternate from round
	// to round, beginning with those of the square that is there.
	LogsTrimmed
	// CornerTriangles close a block of trimmed logs: four right triangles on
	// the sides that the last logs left bare, out to the corners. The block is
	// then a square again, and mostly finished.
	CornerTriangles
)

var roundWords = []string{"triangles", "logs around", "logs opposite", "trimmed logs", "corner triangles"}

// String is the kind as a quilt file has it, as in: logs around.
func (k RoundKind) String() string { return roundWords[k] }

// ParseRoundKind reads a kind of round. The error is a *model.ValueError of the
// kind model.ErrNotAChoice.
func ParseRoundKind(text string) (RoundKind, error) {
	if i := slices.Index(roundWords, text); i >= 0 {
		return RoundKind(i), nil
	}
	return 0, &model.ValueError{Value: text, Err: model.ErrNotAChoice, Hint: "write " + wordList(roundWords)}
}

// isLogs reports whether the kind has a width.
func (k RoundKind) isLogs() bool { return k == LogsAround || k == LogsOpposite || k == LogsTrimmed }

// The keys of a block of rounds in a quilt file.
const (
	KeyCentre = "centre"
	KeyRounds = "rounds"
	KeySize   = "size"
	KeyUnit   = "unit"
	KeyKind   = "kind"
	KeyWidth  = "width"
)

// MaxRounds is the most rounds that a block may have.
const MaxRounds = 100

// Size is Side by Side.
func (r Rounds) Size() (width, height geometry.Surd) {
	return geometry.Of(r.Side), geometry.Of(r.Side)
}

// Uses are the fabrics of the centre, if it is of one piece, and of the rounds.
func (r Rounds) Uses() []string {
	var uses []string
	if r.Centre.Unit == "" {
		uses = append(uses, r.Centre.Fabric)
	}
	for _, round := range r.Rounds {
		uses = append(uses, round.Fabrics...)
	}
	return uses
}

// Recolour is the block with fabrics exchanged, save those of a unit in its
// centre.
func (r Rounds) Recolour(swap Swap) Unit {
	r.Centre.Fabric = swap.one(r.Centre.Fabric)
	r.Rounds = slices.Clone(r.Rounds)
	for i, round := range r.Rounds {
		r.Rounds[i].Fabrics = swap.of(round.Fabrics)
	}
	return r
}

// Inner is the unit in the centre, if there is one.
func (r Rounds) Inner(units Units) []Placed {
	u, known := units[r.Centre.Unit]
	if !known {
		return nil
	}
	p := Placed{Unit: u, Name: r.Centre.Unit, At: model.PathOf(KeyUnits, r.Centre.Unit)}
	width, height := u.Size()
	p.X, p.Y = geometry.Of(r.Side).Sub(width).Half(), geometry.Of(r.Side).Sub(height).Half()
	return []Placed{p}
}

// within is the block with the size of a unit in its centre filled in.
func (r Rounds) within(units Units) Rounds {
	if u, known := units[r.Centre.Unit]; known {
		width, _ := u.Size()
		r.Centre.Side, _ = width.Length()
	}
	return r
}
