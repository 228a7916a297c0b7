package settle_test

import (
	"testing"

	"underfall/assets"
	"underfall/geometry/edit"
	"underfall/geometry/plan"
	"underfall/geometry/settle"
)

// A room made narrower on the side away from the shower leaves the shower in its corner, and its
// head where it was over it: 300 mm off wall B, as long as the shower is so wide.
func TestTheHeadStaysOverTheShower(t *testing.T) {
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	for _, wide := range []float64{2000, 1500, 1400, 1300, 1000} {
		s := settle.Do(demos[0].Job, edit.Outline([]plan.Point{{0, 0}, {wide, 0}, {wide, 1900}, {0, 1900}}))
		if s.Refused != nil {
			t.Errorf("%v: refused: %s", wide, s.Refused.What)
			continue
		}
		if at := s.Job.Shower.Head.At; at != (plan.Point{300, 1500}) {
			t.Errorf("%v: the head is at %v", wide, at)
		}
	}
}
