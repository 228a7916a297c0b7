package hydraulic

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// By hand. Points of 0.4 l/s at 10 mm and 0.6 at 20: halfway 0.5. One point of
// 0.6 l/s at 20 mm, outlet 50 mm below the cover: at 110 mm the height driving
// the flow is 160 instead of 70 mm, so 0.6·√(160/70) = 0.907 l/s; under
// less the trap keeps up until 0.6·√(50/70) = 0.507 l/s, and 0.51 needs 70·(0.51/0.6)² − 50
// = 0.575 mm. No point: 1 l/s goes over an edge of
// 500 under (0.001/(0.37·√19.62·0.5))^(2/3) = 11.422 mm, and through an outlet of 46 under
// (0.001/(0.6·0.00166190·√19.62))² = 51.262, of which 50 are there: 12.684 mm. With an
// edge endlessly long, and 20 + 50 mm, 0.6·0.00166190·√(2·9.81·0.07) = 1.1686 l/s; with a
// tenth of the outlet's area open to it, the cover takes 0.67·0.0001662·√(2·9.81·0.02).
func TestTrapByHand(t *testing.T) {
	curve, one := []HeadFlow{{10, 0.4}, {20, 0.6}}, []HeadFlow{{20, 0.6}}
	wide, tight := Cover{1e12, 1e12}, Cover{1e12, 166.19}
	for name, c := range map[string]struct {
		points []HeadFlow
		cover  Cover
		head   float64
		want   float64
		basis  Basis
	}{
		"curve": {curve, wide, 15, 0.5, FromCurve}, "curve at a point": {curve, wide, 20, 0.6, FromCurve},
		"point at its head": {one, wide, 20, 0.6, FromPoint}, "point carried on": {one, wide, 110, 0.6 * math.Sqrt(160.0/70), FromPoint},
		"point short of it": {one, wide, 0.575, 0.51, FromPoint},
		"over the edge":     {one, Cover{500, 1e9}, 1, 0.025913, FromPoint}, // 0.37·√19.62·0.5·0.001^1.5
		"in series":         {nil, Cover{500, 1e9}, 12.684, 1, FromOrifice},
		"outlet alone":      {nil, wide, 20, 1.1686, FromOrifice},
		"cover alone":       {nil, tight, 20, 0.67 * 0.16619 * math.Sqrt(2*9.81*0.02), FromOrifice},
		"no opening":        {nil, Cover{500, 0}, 20, 0, FromOrifice},
	} {
		o := Outlet{c.points, 46, 50, c.cover}
		if q := o.LPS(c.head); math.Abs(q-c.want) > 5e-5 || o.Basis() != c.basis {
			t.Errorf("%s: %.4f l/s by %s, want %.4f by %s", name, q, o.Basis(), c.want, c.basis)
		}
	}
	if h := (Outlet{curve, 46, 50, wide}).DepthMM(0.5); math.Abs(h-15) > 1e-5 {
		t.Errorf("0.5 l/s stands %.3f mm, want 15", h)
	}
}

// A depth so great that the cover would take in more than numbers go still gives the flow that
// needs it.
func TestTrapUnderADepthWithoutBound(t *testing.T) {
	o := Outlet{[]HeadFlow{{1, 6e-153}}, 46, 80, Cover{1, 1}}
	if q := o.LPS(9.2e306); !(q > 0.1) {
		t.Errorf("%v l/s, want more than what needs less: 0.1 needs %v mm", q, o.DepthMM(0.1))
	}
}

// More head never carries less, and the head found carries the flow.
func TestTrapIsMonotonic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var points []HeadFlow
		head, flow := 0.0, 0.0
		for range rapid.IntRange(0, 5).Draw(t, "points") {
			head += rapid.Float64Range(1, 40).Draw(t, "head")
			flow += rapid.Float64Range(0, 0.5).Draw(t, "flow")
			points = append(points, HeadFlow{head, flow})
		}
		o := Outlet{points, 46, rapid.Float64Range(0, 150).Draw(t, "drop"),
			Cover{rapid.Float64Range(1, 2000).Draw(t, "edge"), rapid.Float64Range(1, 20000).Draw(t, "opening")}}
		last := 0.0
		if q := o.LPS(0); q != 0 {
			t.Fatalf("%v l/s without water over the cover", q)
		}
		for h := 0.0; h < 250; h += 3.7 {
			q := o.LPS(h)
			if q < last-1e-9 {
				t.Fatalf("at %v mm it carries %v, less than %v below", h, q, last)
			}
			last = q
		}
		// The depth for a flow and the flow under a depth are each other's, but where
		// a data sheet has more depth for the same flow.
		want := rapid.Float64Range(0.01, 2).Draw(t, "flow wanted")
		if h := o.DepthMM(want); !math.IsInf(h, 1) && o.LPS(h*(1+1e-9)) < want*(1-1e-6) {
			t.Fatalf("%v mm carries %v, not %v", h, o.LPS(h), want)
		}
		if stands := o.StandsMM(want); stands != 0 && stands != o.DepthMM(want) {
			t.Fatalf("%v l/s stand %v deep, and need %v", want, stands, o.DepthMM(want))
		}
	})
}

// What an outlet carries is the greatest flow that needs no more depth, to the last digits: found
// here by plain halving.
func TestOutletCarriesAllThatTheDepthLets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := Outlet{BoreMM: rapid.Float64Range(0, 110).Draw(t, "bore"), DropMM: rapid.Float64Range(-20, 120).Draw(t, "drop"),
			Cover: Cover{rapid.Float64Range(0, 3000).Draw(t, "edge"), rapid.Float64Range(0, 40000).Draw(t, "opening")}}
		var last HeadFlow
		for range rapid.IntRange(0, 3).Draw(t, "points") {
			last.HeadMM += rapid.Float64Range(0, 30).Draw(t, "head")
			last.FlowLPS += rapid.Float64Range(0.01, 1).Draw(t, "flow")
			o.Points = append(o.Points, last)
		}
		depth := rapid.Float64Range(0.001, 60).Draw(t, "depth")
		low := 0.0
		high, _ := o.Cover.LPS(depth)
		if o.DepthMM(high) <= depth {
			low = high
		}
		for middle := high / 2; middle > low && middle < high; middle = low + (high-low)/2 {
			if o.DepthMM(middle) <= depth {
				low = middle
			} else {
				high = middle
			}
		}
		if got := o.LPS(depth); !(math.Abs(got-low) <= 1e-12*low) {
			t.Errorf("%+v under %v mm: %v, by halving %v", o, depth, got, low)
		}
	})
}

// The head over a weir is reckoned with a constant: a millimetre to the power of 1.5.
func TestAMillimetreOverAWeir(t *testing.T) {
	if got := math.Pow(0.001, 1.5); got != mmToWeirPower {
		t.Errorf("%v, not %v", got, mmToWeirPower)
	}
}
