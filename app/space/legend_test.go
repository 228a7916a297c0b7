package space

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/unit"
	"underfall/viewer"
)

// The legend's figures are counted from what is chosen, and it says so: in every demo from everything that its
// heights can be counted from, its low end is the level of the rod at the drain, as much over the rod of the room,
// the ground or under the laser's line as that is stated.
func TestTheLegendFollowsTheDatum(t *testing.T) {
	roomtest.British(t)
	s := sight.New(func(f func()) { f() }, nil)
	const lineMM = 987
	l := newLegend()
	told := map[geometry.DatumOf]int{}
	for _, r := range demotest.Shown(t) {
		r.Settled.Units = unit.Metric
		known := -13.0
		r.Settled.Laser = job.Laser{SetUps: []job.SetUp{{LevelMM: &known, DownMM: lineMM - known}}}
		rods, _ := r.Rods()
		levelMM := map[geometry.RodOf]float64{}
		for _, rod := range rods {
			levelMM[rod.Of] = rod.LevelMM
		}
		scene := viewer.NewScene(r, nil)
		low, high, _ := scene.Relief()
		if math.Abs(low-levelMM[geometry.RodDrain]) > 0.5 {
			t.Errorf("%s: the lowest is at %v, the rod at the drain at %v", r.Settled.Name, low, levelMM[geometry.RodDrain])
		}
		for _, d := range r.Datums() {
			s.Change(func(s *sight.State) { s.Datum = d.Of })
			read := func(level float64) float64 { return level }
			switch d.Of {
			case geometry.OverRoom:
				room, ok := levelMM[geometry.RodRoom]
				if !ok {
					continue // in a room that is all of one floor the rods do not tell it
				}
				read = func(level float64) float64 { return level - room }
			case geometry.OverGround:
				ground, err := r.DatumMM(d)
				if err != nil {
					t.Fatal(err)
				}
				read = func(level float64) float64 { return level - ground }
			case geometry.UnderLaser:
				read = func(level float64) float64 { return lineMM - level }
			}
			told[d.Of]++
			l.fill(scene, r, &s.State)
			for text, level := range map[string]float64{l.low.Text: low, l.high.Text: high} {
				got, err := strconv.ParseFloat(strings.TrimPrefix(text, "+"), 64)
				// Both the level and what it counts from are told to the millimetre.
				if err != nil || math.Abs(got-read(level)) > 1.01 {
					t.Errorf("%s, %s: “%s” for %v (%v)", r.Settled.Name, d.Of, text, read(level), err)
				}
			}
			if want := map[geometry.DatumOf]string{geometry.OverStructure: "over the structural floor", geometry.OverRoom: "over the room's floor",
				geometry.OverGround: "over the ground outside", geometry.UnderLaser: "down from the laser"}[d.Of]; l.datum.Text != want {
				t.Errorf("%s, %s: it says “%s”", r.Settled.Name, d.Of, l.datum.Text)
			}
		}
	}
	for _, of := range []geometry.DatumOf{geometry.OverStructure, geometry.OverRoom, geometry.OverGround, geometry.UnderLaser} {
		if told[of] == 0 {
			t.Errorf("no demo is told %s", of)
		}
	}
}
