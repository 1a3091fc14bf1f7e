package block

import "crossgrain/model"

// Rounds is a square block that grows from a centre by rounds, each trimmed
// before the next is sewn.
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
//     the last seam to the edge h₁ − h₀ + s (1 1/4 for rounds of 1 in).
//
// Checked by sums: centre 2, two rounds of triangles, straight lines 1 to 6 and
// diagonal lines √2, 2√2, 2√2+1, 2√2+2, 2√2+3 fill 144 square inches.
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
	// the diagonal sides that are left, out to the corners. It is the last
	// round.
	CornerTriangles
)

// The keys of a block of rounds in a quilt file.
const (
	KeyCentre = "centre"
	KeyRounds = "rounds"
	KeySide   = "side"
	KeyUnit   = "unit"
)
