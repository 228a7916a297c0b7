package layout_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// The starting room, 2400 by 1900, its shower 1400 by 900 in the back left corner with the
// drain's edge at (700, 1817). Tile of the room is 600 square in joints of 3. Lists go from
// left to right, and from the back.
func TestJointsAcrossTheFloor(t *testing.T) {
	bond := func(b job.Bond) func(*job.Job) { return func(j *job.Job) { j.Layers.Room.Bond = b } }
	for name, c := range map[string]struct {
		change       func(*job.Job)
		greatest     float64
		across, back []float64 // x of joints along y, y of joints along x
		creases      int
		fields       []layout.Field
	}{
		"none stated":  {func(*job.Job) {}, 0, nil, nil, 0, []layout.Field{{2400, 1900}}},
		"large enough": {func(*job.Job) {}, 2400, nil, nil, 0, []layout.Field{{2400, 1900}}},
		"parted at the edge": {func(j *job.Job) { j.Layers.Joints = &job.Joints{AtEdge: true} }, 2400, nil, nil, 0,
			[]layout.Field{{1400, 900}, {2400, 1900}}},
		// Two parts would end at 1200: the nearest joint lies at 1303.
		"in two": {func(*job.Job) {}, 2000, []float64{1303}, nil, 0, []layout.Field{{1303, 1900}, {1097, 1900}}},
		// In half bond joints run through along x alone, every 603 from y = 1817. Two parts would
		// end at 950; 1214, nearest to it, leaves 1214. Three would end at 1267 and 633.
		"half bond": {bond(job.BondHalf), 1200, []float64{1200}, []float64{1214, 611}, 0,
			[]layout.Field{{1200, 686}, {1200, 603}, {1200, 611}, {1200, 686}, {1200, 603}, {1200, 611}}},
		"herringbone": {bond(job.BondHerringbone), 1200, []float64{1200}, []float64{950}, 0,
			[]layout.Field{{1200, 950}, {1200, 950}, {1200, 950}, {1200, 950}}},
		"tile too large": {func(j *job.Job) { j.Layers.Room.TileLengthMM, j.Layers.Room.TileWidthMM = 1300, 1300 }, 1200,
			[]float64{1200}, []float64{950}, 0, []layout.Field{{1200, 950}, {1200, 950}, {1200, 950}, {1200, 950}}},
		// Less than 500 counts as that.
		"little": {bond(job.BondHerringbone), 1, []float64{480, 960, 1440, 1920}, []float64{1425, 950, 475}, 0,
			slices.Repeat([]layout.Field{{480, 475}}, 20)},
		// The room falls to a point, 2000 across at the most: it is parted along its four hips.
		// The planes at the back and at the front, 2400 along x, are parted again on the joints
		// of tile 200 wide in joints of 3, at 700 + 2·203.
		"creases": {func(j *job.Job) { j.Former.Fall = job.FallRoom }, 2000, []float64{1106, 1106}, nil, 4, nil},
	} {
		j := job.New()
		c.change(&j)
		if j.Layers.Joints == nil {
			j.Layers.Joints = new(job.Joints)
		}
		j.Layers.Joints.GreatestFieldMM = c.greatest
		var sh plan.Shaper
		l := layout.Of(j, &sh)
		got := l.FieldsOf(&j)
		var across, back []float64
		creases := 0
		for _, x := range got.Joints {
			switch d := x.B.Sub(x.A); {
			case x.Crease:
				creases++
			case math.Abs(d.X()) < 1e-9:
				across = append(across, x.A.X())
			default:
				back = append(back, x.A.Y())
			}
		}
		round := func(v any) string { return fmt.Sprintf("%.6f", v) }
		if round(across) != round(c.across) || round(back) != round(c.back) || creases != c.creases {
			t.Errorf("%s: joints at x = %v and y = %v and along %d creases, want %v, %v and %d", name, across, back, creases, c.across, c.back, c.creases)
		}
		if c.fields != nil && round(got.Fields) != round(c.fields) {
			t.Errorf("%s: fields %v, want %v", name, got.Fields, c.fields)
		}
		for _, f := range got.Fields {
			if c.greatest > 500 && math.Max(f.WidthMM, f.DepthMM) > c.greatest+1e-9 {
				t.Errorf("%s: a field of %v", name, f)
			}
		}
	}
}

// A joint past a corner of the room ends there: the room has none at the shower.
func TestJointsEndAtTheFloorsEdge(t *testing.T) {
	j := job.New()
	j.Layers.Joints = &job.Joints{AtEdge: true, GreatestFieldMM: 2000}
	var sh plan.Shaper
	l := layout.Of(j, &sh)
	got := l.FieldsOf(&j).Joints
	// The rest of the room, x = 1303: in front of the shower alone, up to its front at y = 1000.
	if len(got) != 1 || math.Abs(got[0].LengthMM()-1000) > 1e-9 || math.Abs(math.Max(got[0].A.Y(), got[0].B.Y())-1000) > 1e-9 {
		t.Errorf("joints %v, want one from y = 0 to 1000", got)
	}
}
