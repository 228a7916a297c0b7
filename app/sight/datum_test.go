package sight

import (
	"testing"

	"underfall/app/paint"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/plan"
)

// A drawing's levels are told from what is chosen, and its foot says so; over the structural floor, and where
// the job does not know what is chosen, they stand as they are.
func TestDrawingsAreStyledByTheDatum(t *testing.T) {
	r, s := demotest.Shown(t)[0], looking(t)
	for of, from := range map[geometry.DatumOf]string{geometry.OverStructure: "", geometry.UnderLaser: "", geometry.OverRoom: "datum.room"} {
		s.Change(func(s *State) { s.Datum = of })
		style := s.Styled(paint.Style{}, r)
		if got := style.Unit.String(); (from == "") != style.Unit.IsZero() || from != "" && got != "drawing.levels{from: "+from+"}" {
			t.Errorf("%s: the foot says %s", of, got)
		}
	}
}

// A rod stands where a point of the room is pressed, one at a time; pressed near where it stands it is taken
// away, and outside the room none stands and the one that does stays.
func TestStandRod(t *testing.T) {
	r, s := demotest.Shown(t)[0], looking(t)
	p, q := plan.Point{1500, 400}, plan.Point{1700, 700}
	for i, c := range []struct {
		at    plan.Point
		stood bool
		fails bool
	}{{p, true, false}, {q, true, false}, {plan.Point{-900, 400}, true, true}, {q.Add(plan.Point{20, 0}), false, false}, {p, true, false}} {
		err := s.StandRod(r, c.at, 30)
		if (err != nil) != c.fails || s.HasRod != c.stood || !c.fails && s.RodAt != c.at {
			t.Errorf("press %d: %v, stands %v at %v", i, err, s.HasRod, s.RodAt)
		}
	}
}
