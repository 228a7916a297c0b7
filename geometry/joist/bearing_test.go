package joist_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// EN 1995-1-1, 6.1.5, by hand. Joists of 47 × 195 in C24 over 3600 under 0.5 and 0.6 kN/m press on each
// wall with 1.35·0.5·1.8 + 1.5·0.6·1.8 = 2.835 kN. 50 bear, and 30 more count towards the room:
// 2835/(47·80) = 0.7540 N/mm² against 1.5·0.8·2.45/1.3 = 2.2615. A cut that begins 10 from the wall
// leaves 10 of the 30 and the strength as it is, 0.8·2.45/1.3 = 1.5077: 2835/(47·60) = 1.0053. One from 20
// in the wall on leaves 30, and nothing beside: 2835/(47·30) = 2.0106.
func TestBearingByHand(t *testing.T) {
	c24, _ := gradeOf("C24")
	j := job.New()
	j.Floor.Kind, j.Floor.Joists.BearingMM = job.FloorTimber, 50
	l := layout.Layout{SupportsMM: []float64{0, 3600}}
	b := joist.Beam{WidthMM: 47, DepthMM: 195, Timber: c24, DeadKNM: 0.5, LiveKNM: 0.6}
	contacts := joist.Contacts(&j, &l, b)
	if len(contacts) != 2 || contacts[0].FromMM != -50 || contacts[0].ToMM != 0 || contacts[1].FromMM != 3600 || contacts[1].ToMM != 3650 {
		t.Fatalf("bears %+v", contacts)
	}
	const whole, cut = 1.5 * 0.8 * 2.45 / 1.3, 0.8 * 2.45 / 1.3
	for name, c := range map[string]struct {
		at          int
		cuts        []plan.Interval
		want, bears float64
	}{
		"whole":              {0, nil, 2835.0 / (47 * 80) / whole, 50},
		"whole, other end":   {1, nil, 2835.0 / (47 * 80) / whole, 50},
		"cut far off":        {0, []plan.Interval{{From: 30, To: 80}}, 2835.0 / (47 * 80) / whole, 50},
		"cut 10 off":         {0, []plan.Interval{{From: 10, To: 60}}, 2835.0 / (47 * 60) / cut, 50},
		"cut into it":        {0, []plan.Interval{{From: -20, To: 60}}, 2835.0 / (47 * 30) / cut, 30},
		"cut in the middle":  {0, []plan.Interval{{From: -30, To: -10}}, 2835.0 / (47 * (30 + 30)) / cut, 30},
		"cut at the far end": {1, []plan.Interval{{From: 3540, To: 3590}}, 2835.0 / (47 * 60) / cut, 50},
		"all of it cut":      {0, []plan.Interval{{From: -60, To: 10}}, math.Inf(1), 0},
	} {
		if got := b.BearingShare(contacts[c.at], c.cuts); !(math.Abs(got-c.want) <= 1e-9*c.want) && got != c.want {
			t.Errorf("%s: share %v, want %v", name, got, c.want)
		}
		if got, _ := contacts[c.at].Left(c.cuts); math.Abs(got-c.bears) > 1e-9 {
			t.Errorf("%s: %v bear, want %v", name, got, c.bears)
		}
	}
	// C16 has 2.2 N/mm² there and C24 2.5, EN 338:2016, Table 1 (a table of timber properties in a public
	// gist, jsb2505): held to the last of their figures.
	for class, want := range map[string]float64{"C16": 2.2, "C24": 2.5} {
		grade, _ := gradeOf(class)
		if got := 0.007 * grade.DensityKGM3 / 1.2; math.Abs(got-want) > 0.055 {
			t.Errorf("%s: %v N/mm² across the grain, want %v", class, got, want)
		}
	}
}

// On three supports, the middles of 100 that bear, the one between takes both spans: 1.8 and 1.2 m of
// 1.35·0.5 + 1.5·0.6 = 1.575 kN/m, and counts 30 longer to both sides; spans of less than two depths
// and what bears make it no stronger.
func TestBearingBetweenSpans(t *testing.T) {
	c24, _ := gradeOf("C24")
	j := job.New()
	j.Floor.Kind, j.Floor.Joists.BearingMM, j.Floor.Joists.SupportsMM = job.FloorTimber, 100, []float64{0, 3600, 6000}
	l := layout.Layout{SupportsMM: j.Floor.Joists.SupportsMM}
	b := joist.Beam{WidthMM: 47, DepthMM: 195, Timber: c24, DeadKNM: 0.5, LiveKNM: 0.6}
	c := joist.Contacts(&j, &l, b)[1]
	near(t, "between", b.BearingShare(c, nil), 1575*3.0/(47*160)/(1.5*0.8*2.45/1.3), 1e-9)
	b.DepthMM = 1151 // 2300 are clear
	near(t, "deep", b.BearingShare(c, nil), 1575*3.0/(47*160)/(0.8*2.45/1.3), 1e-9)
	j.Floor.Joists.BearingMM = 0
	if got := joist.Contacts(&j, &l, b); len(got) > 0 {
		t.Errorf("not known how far, they bear %+v", got)
	}
}
