package section_test

import (
	"strings"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// A figure of a drawing that is an input is told as its field tells it: in feet where that lies along the floor.
func TestFiguresAreToldAsFieldsAre(t *testing.T) {
	seen := map[bool]int{}
	for _, r := range demotest.Shown(t) {
		told := func(key string, text message.Message) {
			if wall, is := strings.CutSuffix(key, "]"); is && strings.HasPrefix(wall, job.WallsKey) {
				key += "." + job.SideKey
			}
			kind := job.KindOf(key)
			if key == "" || !kind.IsLength() {
				return
			}
			for _, a := range text.Args {
				feet, length := false, true
				switch v := a.Value.(type) {
				case message.Length:
					feet = v.Feet
				case message.InChain:
					feet = v.Feet
				default:
					length = false
				}
				if !length {
					continue
				}
				seen[feet]++
				if want := kind == unit.Along; feet != want {
					t.Errorf("%s: %s of %s is told in feet: %v, its field: %v", r.Settled.Name, text, key, feet, want)
				}
			}
		}
		drawings := []section.Drawing{section.PlanOf(r), section.LongOf(r), section.BedOf(r), section.BoardsOf(r)}
		for _, c := range section.CutPlaces(r) {
			d, err := section.Through(r, c, buildup.StageTile)
			if err != nil {
				t.Fatalf("%s: %v", r.Settled.Name, err)
			}
			drawings = append(drawings, d)
		}
		for _, d := range drawings {
			for _, x := range d.Dimensions {
				told(x.Key, x.Text)
			}
			for _, x := range d.SetOuts {
				told(x.Key, x.Text)
			}
		}
	}
	if seen[true] == 0 || seen[false] == 0 {
		t.Errorf("%v figures were looked at", seen)
	}
}
