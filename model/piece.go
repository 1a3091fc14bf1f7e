package model

// Halving says how often a cut square or rectangle is cut again on a diagonal.
type Halving uint8

// The halvings: a square halved once gives 2 triangles, twice gives 4.
const (
	NotHalved Halving = iota
	HalvedOnce
	HalvedTwice
)

// halvingWords are the halvings as they are written.
var halvingWords = [...]string{NotHalved: "", HalvedOnce: "once", HalvedTwice: "twice"}

// String is once or twice, and empty for a piece that is not halved.
func (h Halving) String() string { return word(halvingWords[:], int(h)) }

// Shapes is how many shapes one cut piece gives: 1, 2 or 4.
func (h Halving) Shapes() int { return 1 << min(h, HalvedTwice) }

// ParseHalving reads once or twice. The error is a [*ValueError] of the kind
// [ErrNotAChoice].
func ParseHalving(text string) (Halving, error) {
	i, err := choose(halvingWords[:], text)
	return Halving(i), err
}

// Grain says which way a piece's long side must run.
type Grain uint8

// Crosswise runs from selvage to selvage, Lengthwise along the selvage.
const (
	AnyGrain Grain = iota
	Crosswise
	Lengthwise
)

// grainWords are the grains as they are written.
var grainWords = [...]string{AnyGrain: "", Crosswise: "crosswise", Lengthwise: "lengthwise"}

// String is crosswise or lengthwise, and empty for a piece whose grain does
// not matter.
func (g Grain) String() string { return word(grainWords[:], int(g)) }

// ParseGrain reads crosswise or lengthwise. The error is a [*ValueError] of
// the kind [ErrNotAChoice].
func ParseGrain(text string) (Grain, error) {
	i, err := choose(grainWords[:], text)
	return Grain(i), err
}

// word is the i-th word, or none.
func word(words []string, i int) string {
	if i < len(words) {
		return words[i]
	}
	return ""
}

// choose finds a text among the words after the first, which is empty.
func choose(words []string, text string) (int, error) {
	for i := 1; i < len(words); i++ {
		if text == words[i] {
			return i, nil
		}
	}
	return 0, &ValueError{Value: text, Err: ErrNotAChoice, Hint: "write " + words[1] + " or " + words[2]}
}

// Piece is one cut size of one fabric.
type Piece struct {
	Name string // unique in the quilt
	Use  string // what it is for; may be empty
	// Along is the cut size across the fabric, along a strip; Across is the
	// cut size along the fabric, in a strip's height; both as the piece
	// stands on the print.
	Along, Across Length
	// Count is how many are cut, before they are halved: 40 squares halved
	// once are a Count of 40 and give 80 triangles.
	Count int
	// Turnable pieces may be turned a quarter on the fabric. A square is not
	// Turnable: it would lie as before.
	Turnable bool
	// Grain is AnyGrain for a square, which has no long side.
	Grain Grain
	Halve Halving
	// Diagonal is EitherDiagonal for a square.
	Diagonal Diagonal
}

// Size is the cut size in the unit u, as in 2 1/2 x 4 1/2, or one number for a
// square.
func (p Piece) Size(u Unit) string { return FormatSize(p.Along, p.Across, u) }

// Area is what all pieces of the size take of the fabric.
func (p Piece) Area() Area { return AreaOf(p.Along, p.Across) * Area(p.Count) }
