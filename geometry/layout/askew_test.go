package layout_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// A wall a little out of square makes no difference to what is left of the deck beside a
// shower in its corner: the room's area less the shower's, which both are rectangles but
// for the wall's slope. A shower along such a wall has its corners put on the grid, a hair
// off the wall, and once left a spike along it that no triangles cover.
func TestShowerAlongAWallOutOfSquare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide, deep := rapid.Float64Range(1400, 3000).Draw(t, "wide"), rapid.Float64Range(1800, 3000).Draw(t, "deep")
		out := rapid.Float64Range(-8, 8).Draw(t, "out of square")
		j := withOutline(timber(), 100, plan.Point{0, 0}, plan.Point{wide, 0}, plan.Point{wide, deep}, plan.Point{0, deep + out})
		j.Base.Support = job.BetweenJoists
		j.Shower = job.Shower{Wall: 2, OffsetMM: rapid.SampledFrom([]float64{0, 200}).Draw(t, "offset"),
			WidthMM: rapid.Float64Range(300, 1000).Draw(t, "width"), DepthMM: rapid.Float64Range(600, 1300).Draw(t, "depth")}
		j.Former.Fall, j.Drain.LengthMM = job.FallLeft, 200
		if len(j.Validate()) > 0 {
			t.Skip("the shower does not lie in the room")
		}
		l := place(t, j)
		deck := 0.0
		for _, r := range l.Deck {
			deck += math.Abs(r.SignedArea())
		}
		// A corner stands out of the room, or short of a wall, by no more than out of square.
		room := wide * (deep + out/2)
		if want, slack := room-j.Shower.WidthMM*j.Shower.DepthMM, 8*j.Shower.DepthMM; math.Abs(deck-want) > slack {
			t.Fatalf("%v mm² of deck, want %v", deck, want)
		}
		if rest := l.Rest.Area(); math.Abs(deck-rest) > 1 {
			t.Fatalf("%v mm² of deck cover %v", deck, rest)
		}
	})
}
