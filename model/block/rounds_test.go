package block

import (
	"slices"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// roundsOf is a block of a side whose rounds are all of one fabric.
func roundsOf(side, centre model.Length, rounds ...Round) Rounds {
	r := Rounds{Side: side, Centre: Centre{Side: centre, Fabric: "ink"}, Rounds: slices.Clone(rounds)}
	for i := range r.Rounds {
		if r.Rounds[i].Fabrics == nil {
			r.Rounds[i].Fabrics = []string{"foam"}
		}
	}
	return r
}

// times is a round n times over.
func times(n int, r Round) []Round { return slices.Repeat([]Round{r}, n) }

var (
	triangles = Round{Kind: Triangles}
	corners   = Round{Kind: CornerTriangles}
	inchLogs  = Round{Kind: LogsTrimmed, Width: in}
)

// pineapple is the block of the sums in the docstring of Rounds: 12 in.
func pineapple(ease Ease) Rounds {
	rounds := slices.Concat(times(2, triangles), times(7, inchLogs), []Round{corners})
	for i := range rounds {
		rounds[i].Ease = ease
	}
	return roundsOf(12*in, 2*in, rounds...)
}

// logCabin is a block of 10 in: a centre of 4, three rounds of 1.
func logCabin() Rounds {
	return roundsOf(10*in, 4*in, times(3, Round{Kind: LogsAround, Width: in, Fabrics: []string{"ink", "foam", "foam", "ink"}})...)
}

// everyRounds has blocks of rounds of each kind and of several.
func everyRounds() []Unit {
	four := Round{Kind: LogsTrimmed, Fabrics: []string{"ink", "foam", "rust", "foam"}, Ease: Ease{OwnEase, in / 8}}
	units := []Unit{
		pineapple(Ease{}), pineapple(trade), logCabin(),
		roundsOf(8*in, 2*in, times(3, Round{Kind: LogsOpposite, Width: in, Fabrics: []string{"ink", "foam", "ink", "rust"}})...),
		roundsOf(10*in, 4*in, slices.Concat(times(3, four), []Round{corners})...),
		roundsOf(9*in, 4*in, triangles, Round{Kind: LogsOpposite}, Round{Kind: LogsAround, Ease: trade}),
		roundsOf(15*in, 0, triangles, inchLogs, inchLogs, corners, Round{Kind: LogsAround, Width: in}, triangles),
		roundsOf(61*in/4, 2*in, slices.Concat(times(2, triangles), times(7, four), []Round{corners})...),
	}
	for depth := range 5 {
		units = append(units, roundsOf(12*in, 0, times(depth+1, Round{Kind: Triangles, Ease: trade})...))
	}
	return units
}

// Blocks of rounds keep the rules, are filled without overlaps, and are trimmed
// last to their unfinished size: what finishes at 12 in is 12 1/2 unfinished
// (common practice, no source).
func TestEveryRoundsIsFilled(t *testing.T) {
	for _, u := range everyRounds() {
		r := u.(Rounds)
		checkRounds(t, r)
		const n = 7
		y := r.Make(inches, n)
		cuts := make([]int, len(y.Cuts))
		for _, s := range y.Shapes {
			cuts[s.Cut] += n
			if y.Cuts[s.Cut].Fabric != s.Fabric {
				t.Errorf("%v is cut from %s", s, y.Cuts[s.Cut].Fabric)
			}
		}
		for i, c := range y.Cuts {
			if got := c.Count * c.Halve.Shapes(); got < cuts[i] || got >= cuts[i]+c.Halve.Shapes() {
				t.Errorf("%+v gives %d of %d shapes", c, got, cuts[i])
			}
		}
		if len(y.Trims) != len(r.Rounds) || y.Made != n {
			t.Errorf("%d trims of %d rounds, %d made", len(y.Trims), len(r.Rounds), y.Made)
		}
		last := y.Trims[len(y.Trims)-1]
		if last.Width != r.Side+in/2 || last.Height != last.Width || last.OnPoint || !last.AllRound {
			t.Errorf("a block of %v is trimmed last to %+v", r.Side, last)
		}
	}
}

// checkRounds checks that a block has no faults and is filled.
func checkRounds(t interface {
	Helper()
	Errorf(format string, args ...any)
}, r Rounds) {
	t.Helper()
	c := Checker{Rules: inches, Fabrics: threeFabrics}
	r.Check(&c, model.PathOf(KeyBlocks, "x"))
	if err := c.Faults.OrNil(); err != nil {
		t.Errorf("%+v: %v", r, err)
		return
	}
	whole := box(r.Side, r.Side)
	shapes := r.Make(inches, 1).Shapes
	planes := make([]plane, len(shapes))
	var sum geometry.Surd
	for i, s := range shapes {
		sum = sum.Add(s.Outline.Area())
		planes[i] = planeOf(s.Outline)
		if !s.Outline.Convex() || !s.Outline.Within(whole) {
			t.Errorf("%+v: %v is not a convex part of it", r, s.Outline)
		}
		for j, other := range shapes[:i] {
			if !planes[i].apart(planes[j]) && geometry.Overlap(s.Outline, other.Outline) {
				t.Errorf("%+v: %v and %v overlap", r, s.Outline, other.Outline)
			}
		}
	}
	if !sum.Equal(whole.Area()) {
		t.Errorf("%+v: the shapes have %v of %v", r, sum, whole.Area())
	}
}

// apart reports whether upright rectangles around two shapes are clear of each
// other, by more than a float can be off: a quick look before an exact one.
func (p plane) apart(q plane) bool {
	for _, d := range [][2]float64{{1, 0}, {0, 1}} {
		back := [2]float64{-d[0], -d[1]}
		if p.reach(d) < -q.reach(back)-1 || q.reach(d) < -p.reach(back)-1 {
			return true
		}
	}
	return false
}

// Our own sums: centre 2, straight lines 1, 2 … 6 and diagonal lines √2, 2√2,
// 2√2+1, 2√2+2, 2√2+3 fill 144 square inches.
func TestPineappleLines(t *testing.T) {
	l := pineapple(Ease{}).lines()
	line := [2]geometry.Surd{geometry.Of(in), {}}
	for i, s := range l.stages {
		want := map[bool]geometry.Surd{true: line[s.on], false: geometry.Root2(in)}[s.on == straight || i > 1]
		if !s.from.Equal(want) {
			t.Errorf("round %d is sewn at %v, want %v", i+1, s.from, want)
		}
		switch i {
		case 0:
			line[diagonal] = geometry.Root2(2 * in)
		case 1:
			line[straight] = geometry.Of(2 * in)
		default:
			line[s.on] = line[s.on].Add(geometry.Of(in))
		}
	}
	if !line[straight].Equal(geometry.Of(6*in)) || !l.stages[9].from.Equal(geometry.Root2(2*in).Add(geometry.Of(3*in))) {
		t.Errorf("the lines end at %v and %v", line, l.stages[9].from)
	}
	var sum geometry.Surd
	for _, s := range pineapple(trade).Make(inches, 1).Shapes {
		sum = sum.Add(s.Outline.Area())
	}
	if !sum.Equal(geometry.OfArea(model.AreaOf(12*in, 12*in))) {
		t.Errorf("the pieces have %v square ticks", sum)
	}
}

// What is cut and trimmed in each round of the pineapple, one block; the sizes
// by hand from the lines: round 3 reaches 2√2 in from the centre, so its logs
// are 2(4-2) + 0.5 + 0.707 = 5.207 long, round 4's 2(3√2-2√2) + 1.207 = 4.035.
func TestPineappleRounds(t *testing.T) {
	type row struct {
		length, height model.Length
		count          int
		across, beyond model.Length // from edge to edge, from seam to edge
		points         bool
	}
	rows := []row{
		{19 * eighth, 19 * eighth, 2, 27 * in / 8, 0, true},           // √2 + 0.854; 2√2 + 0.5
		{23 * eighth, 23 * eighth, 2, 9 * in / 2, 5 * in / 4, true},   // 2 + 0.854; 4 + 0.5
		{42 * eighth, 3 * in / 2, 4, 50 * eighth, 14 * eighth, true},  // 4√2 + 0.5; √2 + 0.25
		{33 * eighth, 3 * in / 2, 4, 13 * in / 2, 5 * in / 4, false},  // 6 + 0.5
		{49 * eighth, 3 * in / 2, 4, 66 * eighth, 5 * in / 4, false},  // 2(4+√2-3) + 1.207 = 6.036; 4√2 + 2.5
		{39 * eighth, 3 * in / 2, 4, 17 * in / 2, 5 * in / 4, false},  // 2(4√2-2√2-1) + 1.207 = 4.864
		{55 * eighth, 3 * in / 2, 4, 82 * eighth, 5 * in / 4, false},  // 2(4+2√2-4) + 1.207 = 6.864; 4√2 + 4.5
		{46 * eighth, 3 * in / 2, 4, 21 * in / 2, 5 * in / 4, false},  // 2(5√2-2√2-2) + 1.207 = 5.692
		{62 * eighth, 3 * in / 2, 4, 98 * eighth, 5 * in / 4, false},  // 2(4+3√2-5) + 1.207 = 7.692; 4√2 + 6.5
		{37 * eighth, 37 * eighth, 2, 25 * in / 2, 5 * in / 4, false}, // √2(6√2-2√2-3) + 0.854 = 4.611; 12 + 0.5
	}
	for _, own := range []Ease{{}, trade} { // an Ease of none, and 1/4 in
		y := pineapple(own).Make(inches, 1)
		for i, want := range rows {
			if own == trade {
				want.length, want.height = want.length+in/4, want.height+in/4
			}
			trim := y.Trims[i]
			cut := trim.Pieces[0]
			got := row{cut.Width, cut.Height, cut.Count, trim.Width, trim.SeamToEdge, trim.PastPoints == in/4}
			if got != want || len(trim.Pieces) != 1 || cut != y.Cuts[i+1] {
				t.Errorf("round %d: got %+v, want %+v", i+1, got, want)
			}
			if trim.OnPoint != (i%2 == 0) {
				t.Errorf("round %d is trimmed on point: %v", i+1, trim.OnPoint)
			}
		}
	}
}

// The three rounds of the log cabin throw (Quilter's World, June 2021, 60 x 70
// in, 42 blocks of 10 in; its logs C to N), with the two short and the two long
// sides of a round in a colour each.
func TestLogCabinPublished(t *testing.T) {
	published := [][]model.Length{
		{9 * in / 2, 11 * in / 2, 11 * in / 2, 13 * in / 2},
		{13 * in / 2, 15 * in / 2, 15 * in / 2, 17 * in / 2},
		{17 * in / 2, 19 * in / 2, 19 * in / 2, 21 * in / 2},
	}
	r := logCabin()
	for i := range r.Rounds {
		r.Rounds[i].Fabrics = []string{"foam", "foam", "rust", "rust"}
	}
	y := r.Make(inches, 42)
	cuts := y.Cuts[1:] // after the centre
	for i, round := range published {
		for j, length := range round {
			fabric := r.Rounds[i].Fabrics[j]
			c := cuts[4*i+j]
			if c.Fabric != fabric || c.Width != length || c.Height != 3*in/2 || c.Count != 42 {
				t.Errorf("round %d: got %+v, want 42 of %s, %v x 1 1/2", i+1, c, fabric, length)
			}
		}
		trim := y.Trims[i]
		if trim.Width != model.Length(4+2*(i+1))*in+in/2 || trim.SeamToEdge != 5*in/4 || trim.PastPoints != 0 {
			t.Errorf("round %d is trimmed to %+v", i+1, trim)
		}
	}
	if use := cuts[5].Use; use != "round 2, logs, right" {
		t.Errorf("a log is for %q", use)
	}
	// In one fabric the sides of one length are one cut.
	r.Rounds[0].Fabrics = []string{"foam"}
	y = r.Make(inches, 42)
	if c := y.Cuts[2]; c.Count != 84 || c.Width != 11*in/2 || c.Use != "round 1, logs, right and bottom" {
		t.Errorf("the two sides of one length are %+v", c)
	}
}

// Courthouse steps, by sums: the first pair as long as the square, the second
// as long as the square with the first.
func TestCourthouseSteps(t *testing.T) {
	y := roundsOf(8*in, 2*in, times(3, Round{Kind: LogsOpposite, Width: in})...).Make(inches, 5)
	for i, lengths := range [][2]model.Length{{5 * in / 2, 9 * in / 2}, {9 * in / 2, 13 * in / 2}, {13 * in / 2, 17 * in / 2}} {
		for j, use := range []string{", logs, top and bottom", ", logs, right and left"} {
			want := model.Cut{Fabric: "foam", Width: lengths[j], Height: 3 * in / 2, Count: 10, Use: "round " + string(rune('1'+i)) + use}
			if got := y.Cuts[1+2*i+j]; got != want {
				t.Errorf("got %+v, want %+v", got, want)
			}
		}
	}
}

// A square in a square of one round and more, the centre worked out from the
// block: 12/√2ⁿ. Of one round it is the published one, and the centre then
// stands on point.
func TestSquareInSquareRounds(t *testing.T) {
	y := roundsOf(12*in, 0, triangles).Make(inches, 2)
	const source = "slideblast.com, Lesson 5, square in a square: block 12"
	if got := y.Cuts[0].Width; got != 9*in {
		t.Errorf("%s: the centre is %v", source, got)
	}
	if got := y.Cuts[1]; got.Width != 55*eighth || got.Count != 4 || got.Halve != model.HalvedOnce {
		t.Errorf("%s: the corners are %+v", source, got)
	}
	if !slices.Contains(y.Notes, noteOnPoint) || !slices.Contains(y.Notes, noteTestBlock) {
		t.Errorf("the notes are %q", y.Notes)
	}
	// Centre 3 1/2: 2.475 + 7/8 (same page).
	if got := roundsOf(7*in, 7*in/2, triangles, triangles).Make(inches, 1).Cuts[1].Width; got != 27*eighth {
		t.Errorf("the corners of a centre of 3 1/2 are %v", got)
	}
	side := geometry.Of(12 * in)
	for depth := 1; depth <= 5; depth++ {
		side = side.OverRoot2()
		r := roundsOf(12*in, 0, times(depth, triangles)...)
		l := r.lines()
		if !l.half.Times(2).Equal(side) || l.centre == diagonal != (depth%2 == 1) {
			t.Errorf("of %d rounds the centre is %v, of family %d", depth, l.half.Times(2), l.centre)
		}
		if got, rounded := r.Make(inches, 1).Cuts[0].Width, inches.Ceil(side.Add(geometry.Of(in/2))); got != rounded {
			t.Errorf("of %d rounds the centre is cut %v, not %v", depth, got, rounded)
		}
	}
}

// Four fabrics go round clockwise: from the top, and once the square stands on
// point from the upper right.
func TestRoundsSides(t *testing.T) {
	four := []string{"ink", "foam", "rust", "sky"}
	for kind, rounds := range map[string][]Round{
		"upright":  {{Kind: LogsOpposite, Width: in, Fabrics: four}},
		"on point": {triangles, {Kind: Triangles, Fabrics: four}},
	} {
		r := roundsOf(4*in, 2*in, rounds...)
		if kind == "on point" {
			r.Centre.Side = 0
		}
		y := r.Make(inches, 1)
		middle := geometry.Of(2 * in)
		for i, s := range y.Shapes[len(y.Shapes)-4:] {
			from, to := s.Outline.Bounds()
			x, y := from.X.Add(to.X).Half().Cmp(middle), from.Y.Add(to.Y).Half().Cmp(middle)
			want := [][2]int{{0, -1}, {1, 0}, {0, 1}, {-1, 0}}[i]
			if kind == "on point" {
				want = [][2]int{{1, -1}, {1, 1}, {-1, 1}, {-1, -1}}[i]
			}
			if s.Fabric != four[i] || [2]int{x, y} != want {
				t.Errorf("%s: %s is at %d, %d, want %v", kind, s.Fabric, x, y, want)
			}
		}
	}
}

// The width of logs that is left out closes the block; a fine size that a ruler
// has stays as it is where it is measured from the seam.
func TestWidthWorkedOut(t *testing.T) {
	open := slices.Concat(times(2, triangles), times(7, Round{Kind: LogsTrimmed}), []Round{corners})
	if got := roundsOf(12*in, 2*in, open...).lines().width; !got.Equal(geometry.Of(in)) {
		t.Errorf("the logs are %v wide", got)
	}
	y := roundsOf(61*in/4, 2*in, open...).Make(inches, 1) // 1 13/32
	if got := y.Trims[4]; got.SeamToEdge != 53*in/32 || got.Width != 9*in || y.Cuts[5].Height != 2*in {
		t.Errorf("trimmed to %+v, cut %+v", got, y.Cuts[5])
	}
	// Half of them given: 12 = 4 + 2(1 + 3w).
	half := slices.Clone(open)
	half[4].Width = in
	if got := roundsOf(12*in, 2*in, half...).lines().width; !got.Equal(geometry.Of(in)) {
		t.Errorf("the other logs are %v wide", got)
	}
	// Centimetres on a mark of half a centimetre: 2 cm from the seam and 0.75.
	cm := Rules{Unit: model.Centimetres, Seam: 3 * model.Centimetre / 4, Ruler: model.Centimetre / 2}
	y = roundsOf(20*model.Centimetre, 8*model.Centimetre, times(3, Round{Kind: LogsAround})...).Make(cm, 1)
	if got := y.Trims[1]; got.SeamToEdge != 11*model.Centimetre/4 || got.Width != 35*model.Centimetre/2 || y.Cuts[1].Height != 7*model.Centimetre/2 {
		t.Errorf("in centimetres: trimmed to %+v, cut %+v", got, y.Cuts[1])
	}
	if len(y.Notes) != 0 {
		t.Errorf("exact sizes have the notes %q", y.Notes)
	}
}

// A unit in the centre gives its size, and stands in the middle.
func TestUnitInCentre(t *testing.T) {
	units := Units{"four": Patches{Columns: lengths(1, 1), Rows: lengths(1, 1), Fabrics: [][]string{{"ink", "foam"}, {"foam", "ink"}}}}
	r := roundsOf(8*in, 0, times(3, Round{Kind: LogsAround})...)
	r.Centre = Centre{Unit: "four"}
	b := Block{Name: "cabin", Width: 8 * in, Height: 8 * in, Rounds: &r}
	c := Checker{Rules: inches, Fabrics: threeFabrics, Units: units}
	b.Check(&c, model.PathOf(KeyBlocks, "cabin"))
	if err := c.Faults.OrNil(); err != nil {
		t.Fatal(err)
	}
	placed := b.Contents(units)
	if len(placed) != 2 || placed[0].Name != "cabin" || placed[0].At != model.PathOf(KeyBlocks, "cabin") || placed[1].Name != "four" {
		t.Fatalf("the block has %+v", placed)
	}
	var shapes []Shape
	for _, p := range placed {
		for _, s := range p.Unit.Make(inches, 1).Shapes {
			s.Outline = p.Place(s.Outline)
			shapes = append(shapes, s)
		}
	}
	fills(t, shapes, box(8*in, 8*in))
	if x := placed[1].X; !x.Equal(geometry.Of(3 * in)) {
		t.Errorf("the unit is %v from the edge", x)
	}
	if uses := placed[0].Unit.Uses(); !slices.Equal(uses, []string{"foam", "foam", "foam"}) {
		t.Errorf("the rounds use %v", uses)
	}
	// A block turned takes what is in it along.
	all := Placed{Unit: placed[0].Unit, X: geometry.Of(in), Turn: 1}.WithInner(units)
	if all[1].Turn != 1 || !all[1].X.Equal(geometry.Of(4*in)) || !all[1].Y.Equal(geometry.Of(3*in)) {
		t.Errorf("turned, the unit in the centre is %+v", all[1])
	}
}

func TestRoundsRecoloured(t *testing.T) {
	r := logCabin()
	other := r.Recolour(Swap{"ink": "rust"})
	if got := other.Uses(); got[0] != "rust" || got[1] != "rust" || got[2] != "foam" || r.Uses()[1] != "ink" {
		t.Errorf("got %v of %v", got, r.Uses())
	}
	if width, height := other.Size(); !width.Equal(geometry.Of(10*in)) || !height.Equal(width) {
		t.Errorf("it is %v x %v", width, height)
	}
}

func TestRoundWords(t *testing.T) {
	for k := Triangles; k <= CornerTriangles; k++ {
		if back, err := ParseRoundKind(k.String()); back != k || err != nil {
			t.Errorf("%s is read as %v, %v", k, back, err)
		}
	}
	want := `unknown word ("log"), write triangles, logs around, logs opposite, trimmed logs or corner triangles`
	if _, err := ParseRoundKind("log"); err == nil || err.Error() != want {
		t.Errorf("got %v", err)
	}
}
