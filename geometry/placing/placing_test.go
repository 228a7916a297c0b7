package placing_test

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/placing"
)

// scene is an empty picture of 200 by 100.
func scene() *placing.Scene {
	return &placing.Scene{Picture: placing.Box{High: placing.Point{200, 100}}, Ink: placing.NewCover(200, 100, 4), Cut: placing.NewCover(200, 100, 4)}
}

// at is a candidate of 40 by 10 about a place.
func at(x, y, cost float64) placing.Candidate {
	return placing.Candidate{Boxes: []placing.Box{placing.Around(placing.Point{x, y}, 40, 10)}, Cost: cost}
}

// A label stands at its cheapest place; off what is there: another text, a handle, a line laid over
// the picture, the rim, and what is cut where it keeps off that; and it is left out where even the
// cheapest costs more than that.
func TestPlacesAreFound(t *testing.T) {
	two := func() placing.Label {
		return placing.Label{Candidates: []placing.Candidate{at(50, 50, 0), at(150, 50, 5)}, LeaveOut: 30}
	}
	for name, c := range map[string]struct {
		change func(*placing.Scene, *placing.Label)
		want   int
	}{
		"nothing there": {func(*placing.Scene, *placing.Label) {}, 0},
		"a handle": {func(s *placing.Scene, _ *placing.Label) {
			s.Handles = []placing.Box{placing.Around(placing.Point{50, 50}, 8, 8)}
		}, 1},
		"pressed there": {func(s *placing.Scene, _ *placing.Label) {
			s.Near = []placing.Box{placing.Around(placing.Point{50, 50}, 44, 44)}
		}, 1},
		"a line": {func(s *placing.Scene, _ *placing.Label) { s.Over = []placing.Straight{{{50, -10}, {50, 300}}} }, 1},
		"a line beside": {func(s *placing.Scene, _ *placing.Label) {
			s.Over, s.Aside = []placing.Straight{{{24, -10}, {24, 300}}}, 6.5
		}, 1},
		"a line further off": {func(s *placing.Scene, _ *placing.Label) {
			s.Over, s.Aside = []placing.Straight{{{24, -10}, {24, 300}}}, 5.5
		}, 0},
		"ink": {func(s *placing.Scene, _ *placing.Label) { s.Ink.Line(placing.Straight{{50, 0}, {50, 100}}, 10) }, 1},
		"ink of its own": {func(s *placing.Scene, l *placing.Label) {
			l.Own = []placing.Straight{{{50, 0}, {50, 100}}}
			s.Ink.Line(l.Own[0], placing.OwnWeight)
		}, 0},
		"what is cut": {func(s *placing.Scene, l *placing.Label) {
			s.Cut.Fill([][]placing.Point{{{40, 40}, {60, 40}, {60, 60}, {40, 60}}}, 1)
			l.OffCut = true
		}, 1},
		"cut, and no matter": {func(s *placing.Scene, _ *placing.Label) {
			s.Cut.Fill([][]placing.Point{{{40, 40}, {60, 40}, {60, 60}, {40, 60}}}, 1)
		}, 0},
		"the rim": {func(s *placing.Scene, _ *placing.Label) { s.Picture.Low[0] = 31 }, 1},
		"both over ink": {func(s *placing.Scene, _ *placing.Label) {
			for x := 2.0; x < 200; x += 4 {
				s.Ink.Line(placing.Straight{{x, 0}, {x, 100}}, 10)
			}
		}, -1},
		"dearer than nothing": {func(_ *placing.Scene, l *placing.Label) { l.LeaveOut = 0 }, -1},
	} {
		s, l := scene(), two()
		c.change(s, &l)
		if got := placing.Place(s, []placing.Label{l}); got[0] != c.want {
			t.Errorf("%s: at %d, want %d", name, got[0], c.want)
		}
	}
}

// Of two that want one place the worthier has it; one that has but this place gets it all the same
// where the other can go elsewhere; what leads to a label leads through no other.
func TestLabelsMakeRoom(t *testing.T) {
	both := func() placing.Label {
		return placing.Label{Candidates: []placing.Candidate{at(50, 50, 0), at(150, 50, 5)}, LeaveOut: 30}
	}
	one := placing.Label{Candidates: []placing.Candidate{at(50, 50, 0)}, LeaveOut: 30}
	if got := placing.Place(scene(), []placing.Label{both(), both()}); !reflect.DeepEqual(got, []int{0, 1}) {
		t.Errorf("two alike at %v", got)
	}
	if got := placing.Place(scene(), []placing.Label{both(), one}); !reflect.DeepEqual(got, []int{1, 0}) {
		t.Errorf("one of them with one place: at %v", got)
	}
	if got := placing.Place(scene(), []placing.Label{one, one}); !reflect.DeepEqual(got, []int{0, -1}) {
		t.Errorf("both with one place: at %v", got)
	}
	led := placing.Label{Candidates: []placing.Candidate{at(100, 90, 0), at(150, 90, 9)}, LeaveOut: 30}
	led.Candidates[0].Leader = []placing.Straight{{{50, 0}, {50, 90}}}
	if got := placing.Place(scene(), []placing.Label{one, led}); !reflect.DeepEqual(got, []int{0, 1}) {
		t.Errorf("one led to through the other: at %v", got)
	}
}

// What leads to a label keeps off the marks of others, whichever of the two is placed first, and off what can be dragged, unless
// that lies at its own mark: there it would seem to lead to those.
func TestLeadersKeepOffMarks(t *testing.T) {
	led := func() placing.Label {
		l := placing.Label{Candidates: []placing.Candidate{at(100, 90, 0), at(100, 10, 5)}, LeaveOut: 300}
		l.Candidates[0].Leader = []placing.Straight{{{100, 50}, {100, 85}}}
		l.Candidates[1].Leader = []placing.Straight{{{100, 50}, {100, 15}}}
		for k := range l.Candidates {
			l.Candidates[k].Marks = []placing.Box{placing.Around(placing.Point{100, 50}, 6, 6)}
		}
		return l
	}
	marked := placing.Label{Candidates: []placing.Candidate{at(160, 70, 0)}, LeaveOut: 300}
	marked.Candidates[0].Marks = []placing.Box{placing.Around(placing.Point{101, 70}, 6, 6)}
	if got := placing.Place(scene(), []placing.Label{led()}); !reflect.DeepEqual(got, []int{0}) {
		t.Errorf("with nothing there: at %v", got)
	}
	if got := placing.Place(scene(), []placing.Label{led(), marked}); !reflect.DeepEqual(got, []int{1, 0}) {
		t.Errorf("with a mark on the way: at %v", got)
	}
	if got := placing.Place(scene(), []placing.Label{marked, led()}); !reflect.DeepEqual(got, []int{0, 1}) {
		t.Errorf("with a mark on the way that is there first: at %v", got)
	}
	for y, want := range map[float64]int{70: 1, 50: 0} {
		s := scene()
		s.Handles = []placing.Box{placing.Around(placing.Point{100, y}, 12, 12)}
		if got := placing.Place(s, []placing.Label{led()}); got[0] != want {
			t.Errorf("with a handle at %v: at %v, want %d", y, got, want)
		}
	}
}

// Whatever is asked for: what is placed meets nothing that it must not, and it is placed so again.
func TestPlacedApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := scene()
		x, y := rapid.Float64Range(0, 200), rapid.Float64Range(0, 100)
		for range rapid.IntRange(0, 3).Draw(t, "handles") {
			s.Handles = append(s.Handles, placing.Around(placing.Point{x.Draw(t, "x"), y.Draw(t, "y")}, 12, 12))
			s.Over = append(s.Over, placing.Straight{{x.Draw(t, "x"), 0}, {x.Draw(t, "x"), 100}})
		}
		labels := make([]placing.Label, rapid.IntRange(1, 12).Draw(t, "labels"))
		for i := range labels {
			labels[i].LeaveOut = rapid.Float64Range(0, 500).Draw(t, "out")
			for range rapid.IntRange(0, 6).Draw(t, "candidates") {
				c := at(x.Draw(t, "x"), y.Draw(t, "y"), rapid.Float64Range(0, 40).Draw(t, "cost"))
				c.Leader = []placing.Straight{{{x.Draw(t, "x"), y.Draw(t, "y")}, {c.Boxes[0].Low[0], c.Boxes[0].High[1]}}}
				labels[i].Candidates = append(labels[i].Candidates, c)
			}
		}
		got := placing.Place(s, labels)
		if again := placing.Place(s, labels); !reflect.DeepEqual(got, again) {
			t.Errorf("%v, then %v", got, again)
		}
		for i, k := range got {
			if k < 0 {
				continue
			}
			c := labels[i].Candidates[k]
			b := c.Boxes[0]
			if b.Low[0] < 0 || b.Low[1] < 0 || b.High[0] > 200 || b.High[1] > 100 {
				t.Errorf("%v is not all in the picture", b)
			}
			for _, h := range s.Handles {
				if b.Low[0] < h.High[0] && h.Low[0] < b.High[0] && b.Low[1] < h.High[1] && h.Low[1] < b.High[1] {
					t.Errorf("%v lies on a handle at %v", b, h)
				}
			}
			lines := append([]placing.Straight{}, s.Over...)
			for o, ok := range got {
				if o == i || ok < 0 {
					continue
				}
				other := labels[o].Candidates[ok]
				lines = append(lines, other.Leader...)
				if d := other.Boxes[0]; b.Low[0] < d.High[0] && d.Low[0] < b.High[0] && b.Low[1] < d.High[1] && d.Low[1] < b.High[1] {
					t.Errorf("%v and %v meet", b, d)
				}
			}
			for _, line := range lines {
				const steps = 200
				for n := range steps + 1 {
					share := float64(n) / steps
					px, py := line[0][0]+share*(line[1][0]-line[0][0]), line[0][1]+share*(line[1][1]-line[0][1])
					if px > b.Low[0] && px < b.High[0] && py > b.Low[1] && py < b.High[1] {
						t.Errorf("%v lies on %v", b, line)
						break
					}
				}
			}
		}
	})
}

// A cover tells of a box of whole cells what its cells hold: of a filled rectangle its area in cells;
// of a straight a weight for each cell on its way, 10 of them along a row.
func TestCover(t *testing.T) {
	c := placing.NewCover(100, 60, 5)
	c.Fill([][]placing.Point{{{10, 10}, {40, 10}, {40, 30}, {10, 30}}, {{20, 15}, {30, 15}, {30, 25}, {20, 25}}}, 2)
	for _, w := range []struct {
		box  placing.Box
		want float64
	}{
		{placing.Box{High: placing.Point{100, 60}}, 2 * (6*4 - 2*2)},
		{placing.Box{Low: placing.Point{20, 15}, High: placing.Point{30, 25}}, 0},
		{placing.Box{Low: placing.Point{10, 10}, High: placing.Point{15, 15}}, 2},
		{placing.Box{Low: placing.Point{10, 10}, High: placing.Point{12.5, 12.5}}, 0.5},
		{placing.Box{Low: placing.Point{-50, -50}, High: placing.Point{500, 500}}, 40},
	} {
		if got := c.In(w.box); math.Abs(got-w.want) > 1e-9 {
			t.Errorf("%v holds %v, want %v", w.box, got, w.want)
		}
	}
	lined := placing.NewCover(100, 60, 5)
	lined.Line(placing.Straight{{0, 32}, {49.9, 32}}, 3)
	if got := lined.In(placing.Box{High: placing.Point{100, 60}}); got != 30 {
		t.Errorf("a row of ten cells holds %v", got)
	}
	lined.Line(placing.Straight{{-500, -500}, {-400, -400}}, 3)
	if got := lined.In(placing.Box{High: placing.Point{100, 60}}); got != 30 {
		t.Errorf("with a line off the picture %v", got)
	}
}

// A label stays where it was while it can, though another place has come to be better, and goes elsewhere where it
// cannot; what was left out stays out, and more labels than before are all placed afresh.
func TestPlacesAreKept(t *testing.T) {
	two := func() placing.Label {
		return placing.Label{Candidates: []placing.Candidate{at(50, 50, 0), at(150, 50, 5)}, LeaveOut: 30}
	}
	inTheWay := func(x float64) *placing.Scene {
		s := scene()
		s.Handles = []placing.Box{placing.Around(placing.Point{x, 50}, 8, 8)}
		return s
	}
	for name, c := range map[string]struct {
		scene        *placing.Scene
		labels       int
		before, want []int
	}{
		"stays":              {scene(), 1, []int{1}, []int{1}},
		"cannot stay":        {inTheWay(150), 1, []int{1}, []int{0}},
		"left out":           {scene(), 1, []int{-1}, []int{-1}},
		"no such place":      {scene(), 1, []int{7}, []int{0}},
		"another stays":      {scene(), 2, []int{1, 0}, []int{1, 0}},
		"both at one":        {scene(), 2, []int{1, 1}, []int{1, 0}},
		"there are more now": {scene(), 2, []int{1}, []int{0, 1}},
	} {
		labels := make([]placing.Label, c.labels)
		for i := range labels {
			labels[i] = two()
		}
		if got := placing.Keep(c.scene, labels, c.before); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}
