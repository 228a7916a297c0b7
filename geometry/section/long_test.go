package section_test

import (
	"math"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/material"
	"underfall/geometry/section"
)

// In the long section every piece of pipe is as long and as high as it is, its
// levels those of the run, the heights exaggerated and nothing else.
func TestLongSectionIsTrue(t *testing.T) {
	for _, r := range demotest.Results(t) {
		d := section.LongOf(r)
		run := r.Heights.Run
		pipes := map[string]section.Area{}
		for _, a := range d.Areas {
			pipes[a.Name] = a
			if len(a.Region) == 0 {
				t.Errorf("%s: %s has no area", r.Settled.Name, a.Name)
			}
		}
		for _, p := range run.Pieces {
			if p.Kind == "drop" || p.LengthMM() < 1 {
				continue
			}
			a, ok := pipes[p.Name()]
			if !ok {
				t.Errorf("%s: %s is not drawn", r.Settled.Name, p.Name())
				continue
			}
			size := (p.Pipe.OutsideDiameterMM + p.After.OutsideDiameterMM) / 2
			if p.Kind == "bend" || p.Kind == "extender" {
				size += 2 * 3.5 // its sockets
			}
			if got, want := a.Region.Area(), p.LengthMM()*size*d.Rise; math.Abs(got-want) > 1e-6*want {
				t.Errorf("%s: %s covers %v, want length × diameter × rise %v", r.Settled.Name, p.Name(), got, want)
			}
		}
		for _, m := range d.Marks {
			if m.Label == "Invert" && math.Abs(m.LevelMM-run.InvertAt(m.At.X())) > 1e-9 || m.Text == "" && math.Abs(m.At.Y()-m.LevelMM*d.Rise) > 1e-6 {
				t.Errorf("%s: mark %+v, invert there %v", r.Settled.Name, m, run.InvertAt(m.At.X()))
			}
		}
	}
}

// Every joist the run meets in plan is in the long section, as wide as it is
// crossed.
func TestLongSectionShowsTheJoists(t *testing.T) {
	for _, r := range demotest.Results(t) {
		drawn := 0
		for _, a := range section.LongOf(r).Areas {
			if a.Material == material.Timber {
				drawn++
			}
		}
		met := 0
		path := r.Heights.Run.Path()
		for i := 1; i < len(path); i++ {
			for _, js := range r.Layout.Joists {
				if from, to, ok := js.Crosses(path[i-1], path[i]); ok && to > from {
					met++
				}
			}
		}
		if drawn != met {
			t.Errorf("%s: %d stretches of joist drawn, %d met", r.Settled.Name, drawn, met)
		}
	}
}

// Water runs downhill all the way, and to the drain.
func TestFlowLinesRunDown(t *testing.T) {
	for _, r := range demotest.Results(t) {
		lines := section.FlowLines(r, 150)
		if len(lines) < 10 {
			t.Errorf("%s: %d lines", r.Settled.Name, len(lines))
		}
		reached := 0
		for _, l := range lines {
			for i := 1; i < len(l); i++ {
				if a, b := r.Layout.Fall.At(l[i-1]), r.Layout.Fall.At(l[i]); b > a+1e-9 {
					t.Fatalf("%s: water runs up from %v to %v", r.Settled.Name, a, b)
				}
			}
			if r.Layout.Fall.At(l[len(l)-1]) < 0.5 {
				reached++
			}
		}
		if reached < len(lines)*9/10 {
			t.Errorf("%s: only %d of %d lines reach the drain's level", r.Settled.Name, reached, len(lines))
		}
	}
}
