// Package sketch has the small drawings that show beside a field what it measures: a handful of
// plans and sections of no job in particular, each with the measures that can be lit in it.
package sketch

import (
	"strings"

	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// Sketch is a small drawing with one measure lit in it. It is drawn in points of text, WideMM by
// HighMM of them, not to the scale of anything.
type Sketch struct {
	Drawing section.Drawing
	// From and To are the ends of the measure.
	From, To plan.Point
}

// The size of all sketches.
const (
	WideMM = 250
	HighMM = 112
)

// measure is what is lit in a sketch.
type measure struct{ from, to plan.Point }

// base is a sketch with what can be lit in it, by the last part of an input's key or more of it.
type base struct {
	draw     func() section.Drawing
	measures map[string]measure
}

// Of is the sketch for an input, by its key in a job's file; of an entry of a list by the list's key
// and the entry's, as room.doorways.widthMM. False where there is none.
func Of(key string) (Sketch, bool) {
	for _, b := range bases() {
		if m, ok := b.measures[key]; ok {
			d := b.draw()
			d.High = plan.Point{WideMM, HighMM}
			return Sketch{d, m.from, m.to}, true
		}
	}
	return Sketch{}, false
}

// Keys are the keys of all inputs that have a sketch.
func Keys() []string {
	var out []string
	for _, b := range bases() {
		for key := range b.measures {
			out = append(out, key)
		}
	}
	return out
}

// bases are all sketches.
func bases() []base {
	return []base{roomPlan(), joistSection(), joistPlan(), readingsPlan(), unevenFloor(), floorSection(), trapSection(), wallSection(), tileGrid()}
}

// finishes are measures for the finishes of all three places, by the rest of their keys.
func finishes(of map[string]measure) map[string]measure {
	out := map[string]measure{}
	for rest, m := range of {
		for _, place := range []string{"shower", "room", "wall"} {
			out["layers."+place+"."+rest] = m
		}
	}
	return out
}

// cut is a face that is cut, seen one that is seen.
func cut(m material.Material, ring ...plan.Point) section.Area {
	return section.Area{Material: m, Region: plan.Region{{Outer: ring}}, Cut: true}
}

func seen(m material.Material, ring ...plan.Point) section.Area {
	return section.Area{Material: m, Region: plan.Region{{Outer: ring}}}
}

// box is the ring of a rectangle by two of its corners.
func box(x0, y0, x1, y1 float64) []plan.Point {
	return []plan.Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// line is a thin line, heavy a heavy one.
func line(points ...plan.Point) section.Line { return section.Line{Points: points} }

func heavy(points ...plan.Point) section.Line {
	return section.Line{Points: points, Weight: section.Medium}
}

// dashed is what is hidden, or only thought of.
func dashed(points ...plan.Point) section.Line { return section.Line{Points: points, Dashed: true} }

// level and upright are measures along and across a sketch.
func level(x0, x1, y float64) measure { return measure{plan.Point{x0, y}, plan.Point{x1, y}} }

func upright(x, y0, y1 float64) measure { return measure{plan.Point{x, y0}, plan.Point{x, y1}} }

// with are measures of several keys at once, parted by commas.
func with(of map[string]measure) map[string]measure {
	out := map[string]measure{}
	for keys, m := range of {
		for _, key := range strings.Split(keys, ",") {
			out[key] = m
		}
	}
	return out
}
