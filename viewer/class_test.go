package viewer_test

import (
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/viewer"
)

// A program of one class of materials draws what the program of all classes draws: by day and in the evening, dry and
// wet, whole, cut and with heights shown. One step of 255 is left to how a driver rounds.
func TestClassesDrawAsAllDo(t *testing.T) {
	r := viewer.Open(t)
	for i, res := range demotest.Results(t) {
		for _, f := range []viewer.Frame{frame(res, viewer.ViewCut, 320, 200), frame(res, viewer.ViewCorner, 320, 200)} {
			f.Wet = i%2 == 1
			f.Look = []viewer.Look{viewer.LookFinished, viewer.LookFinished, viewer.LookHeights, viewer.LookThrough}[i%4]
			if i%3 == 2 {
				f.Light.Kind = job.LightEvening
			}
			r.ForgetClasses()
			want, err := r.Draw(f)
			if err != nil {
				t.Fatal(err)
			}
			n, err := r.BuildClasses(f)
			if err != nil {
				t.Fatal(err)
			}
			if n < 3 {
				t.Errorf("%s: only %d classes were built", res.Settled.Name, n)
			}
			got, err := r.Draw(f)
			if err != nil {
				t.Fatal(err)
			}
			far := 0
			for k := range want.Pix {
				if d := int(want.Pix[k]) - int(got.Pix[k]); d < -1 || d > 1 {
					far++
				}
			}
			if share := float64(far) / float64(len(want.Pix)); share > 0.0005 {
				t.Errorf("%s, look %d: %.2f %% of the values differ", res.Settled.Name, f.Look, 100*share)
			}
		}
	}
}
