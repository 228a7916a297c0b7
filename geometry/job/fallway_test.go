package job_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// A drain at a wall is called by the wall's letter, as walls are everywhere: in the usual room, walked so that A is the wall
// of the door, by hand. Where no wall stands at a side, the drain there has none.
func TestADrainIsCalledByItsWall(t *testing.T) {
	j := job.New()
	in, ok := job.FindInput("former.fall")
	if !ok {
		t.Fatal("where the floor falls to is no input")
	}
	walls := func(j *job.Job) map[string]string {
		out := map[string]string{}
		for _, o := range in.Choice.Options(j, nil) {
			out[o.Value] = ""
			for _, a := range o.Word.Args {
				if l, is := a.Value.(message.Letter); is {
					out[o.Value] = l.String()
				}
			}
		}
		return out
	}
	n := len(j.Room.Outline)
	back := j.Room.Letter(j.Shower.Wall).String()
	got := walls(&j)
	if got["back"] != back || got["front"] != "" || got["point"] != "" {
		t.Errorf("%v, and the back wall is %s", got, back)
	}
	// Over the whole of its wall, the walls beside that are those at its left and right.
	j.Shower.OffsetMM, j.Shower.WidthMM = 0, j.Room.WallLengthMM(j.Shower.Wall)
	beside := map[string]bool{j.Room.Letter((j.Shower.Wall + 1) % n).String(): true, j.Room.Letter((j.Shower.Wall + n - 1) % n).String(): true}
	got = walls(&j)
	if !beside[got["left"]] || !beside[got["right"]] || got["left"] == got["right"] {
		t.Errorf("%v, and beside it are %v", got, beside)
	}
	// In the middle of it, none is.
	j.Shower.OffsetMM, j.Shower.WidthMM = 300, j.Room.WallLengthMM(j.Shower.Wall)-600
	if got = walls(&j); got["left"] != "" || got["right"] != "" {
		t.Errorf("in the middle: %v", got)
	}
}
