package block

import (
	"testing"

	"crossgrain/model"
)

func TestTrimWords(t *testing.T) {
	log := Trim{Width: 13 * in / 2, Height: 13 * in / 2, SeamToEdge: 5 * in / 4, AllRound: true}
	slanted, both := log, log
	slanted.OnPoint, slanted.PastPoints, slanted.SeamToEdge = true, in/4, 0
	both.PastPoints = in / 4
	const back = "Then turn the block back, to stand as it stood before this step."
	for _, test := range []struct {
		trim Trim
		hand Hand
		want string
	}{
		{Trim{Width: 5 * in / 2, Height: 9 * in / 2}, RightHand, "Trim to 2 1/2 x 4 1/2 in."},
		{log, RightHand, "Trim the right and the top side, 1 1/4 in beyond the last seam along it. " +
			"Turn the block half round and trim the other two sides: 6 1/2 in from edge to edge. " + back},
		{log, LeftHand, "Trim the left and the top side, 1 1/4 in beyond the last seam along it. " +
			"Turn the block half round and trim the other two sides: 6 1/2 in from edge to edge. " + back},
		{slanted, RightHand, "Turn the block by an eighth, so that the slanted edges are upright. " +
			"Trim the right and the top side, 1/4 in beyond the points where the seams meet. " +
			"Turn the block half round and trim the other two sides: 6 1/2 in from edge to edge. " + back},
		{both, LeftHand, "Trim the left and the top side, 1/4 in beyond the points where the seams meet, " +
			"which is 1 1/4 in beyond the last seam along it. " +
			"Turn the block half round and trim the other two sides: 6 1/2 in from edge to edge. " + back},
	} {
		if got := test.trim.Words(test.hand, model.Inches); got != test.want {
			t.Errorf("got  %s\nwant %s", got, test.want)
		}
	}
	for hand, want := range map[Hand]string{RightHand: "right", LeftHand: "left"} {
		if first := FirstSides(hand); hand.String() != want || first[0].String() != want || first[1] != Top {
			t.Errorf("the %s hand trims %v first", hand, first)
		}
	}
}
