package rule

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry/source"
	"underfall/geometry/unit"
)

// From 18.2 mm on a metre pipes go on to 1:50 and 1:40, and back to 18; a shower 1188 wide to 1200, and back to
// 1150, in inches to 47. A value that is one of the steps is the first of them.
func TestStepsGoOnToTheNext(t *testing.T) {
	all := Steps{Inputs: []StepsOf{
		{Key: "fall", Values: []float64{0.018, 0.02, 0.025}},
		{Key: "width", Units: unit.Metric, Every: 50}, {Key: "width", Units: unit.Imperial, Every: 25.4},
	}, Source: source.Source{Mark: source.Practice}}
	if err := all.check(); err != nil {
		t.Error(err)
	}
	for _, c := range []struct {
		key   string
		units unit.System
		from  float64
		up    bool
		want  []float64
	}{
		{"fall", unit.Metric, 0.0182, true, []float64{0.02, 0.025}},
		{"fall", unit.Imperial, 0.018, true, []float64{0.018, 0.02}},
		{"fall", unit.Metric, 0.0182, false, []float64{0.018}},
		{"fall", unit.Metric, 0.03, true, nil},
		{"width", unit.Metric, 1188, true, []float64{1200, 1250}},
		{"width", unit.Metric, 1188, false, []float64{1150, 1100}},
		{"width", unit.Metric, 1200, true, []float64{1200, 1250}},
		{"width", unit.Imperial, 1188, true, []float64{47 * 25.4, 48 * 25.4}},
	} {
		of, ok := all.Of(c.key, c.units)
		got := of.From(c.from, c.up, 2)
		if !ok || !slices.EqualFunc(got, c.want, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }) {
			t.Errorf("%+v: %v, %v", c, got, ok)
		}
	}
	if _, ok := all.Of("height", unit.Metric); ok {
		t.Error("what has no steps has some")
	}
	// A region that says its own of one input, or of one in some units, has the rest from its parent.
	metric := Steps{Inputs: []StepsOf{{Key: "width", Units: unit.Metric, Every: 100}}, Source: all.Source}.over(all)
	if in, _ := metric.Of("width", unit.Imperial); in.Every != 25.4 {
		t.Errorf("in inches over its parent: %+v", in)
	}
	if mm, _ := metric.Of("width", unit.Metric); mm.Every != 100 {
		t.Errorf("in millimetres over its parent: %+v", mm)
	}
	own := Steps{Inputs: []StepsOf{{Key: "width", Every: 100}}, Source: all.Source}.over(all)
	wide, _ := own.Of("width", unit.Imperial)
	if _, ok := own.Of("fall", unit.Metric); !ok || wide.Every != 100 || len(own.Inputs) != 2 {
		t.Errorf("over its parent: %+v", own)
	}
}

// What is told of steps must be one thing or the other, once, and go up.
func TestStepsAreChecked(t *testing.T) {
	for name, in := range map[string][]StepsOf{
		"no input": {{Every: 50}}, "nothing": {{Key: "a"}}, "both": {{Key: "a", Every: 1, Values: []float64{1}}},
		"down": {{Key: "a", Values: []float64{2, 1}}}, "twice": {{Key: "a", Every: 1}, {Key: "a", Every: 2}},
	} {
		if (Steps{Inputs: in, Source: source.Source{Mark: source.Practice}}).check() == nil {
			t.Errorf("%s passes", name)
		}
	}
}
