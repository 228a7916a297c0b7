package job_test

import (
	"testing"

	"underfall/geometry/job"
)

// The drain lies in the floor it drains. By hand, in a shower 1400 wide and 900
// deep, with a linear drain 800 long and 70 wide: 300 to spare each side at the
// back, 50 at the left, and for a point drain of 70 665.
func TestDrainInTheShower(t *testing.T) {
	const hair = 1e-6 // plan.HairMM
	of := func(fall job.FallKind, change func(*job.Drain)) func(*job.Job) {
		return func(j *job.Job) {
			j.Former.Fall = fall
			change(&j.Drain)
		}
	}
	shifted := func(fall job.FallKind, mm float64) func(*job.Job) {
		return of(fall, func(d *job.Drain) { d.OffsetMM = mm })
	}
	forward := func(fall job.FallKind, mm float64) func(*job.Job) {
		return of(fall, func(d *job.Drain) { d.ForwardMM = &mm })
	}
	clear := func(fall job.FallKind, clearance, width float64) func(*job.Job) {
		return func(j *job.Job) {
			of(fall, func(d *job.Drain) { d.WallClearanceMM, d.WidthMM = clearance, width })(j)
			j.Shower.DepthMM = 600
			j.Drain.LengthMM = 600
		}
	}
	trap := func(fall job.FallKind, length, size, offset float64) func(*job.Job) {
		return of(fall, func(d *job.Drain) { d.LengthMM, d.TrapSizeMM, d.TrapOffsetMM = length, size, offset })
	}
	const offset, wall, ahead, under = "drain.offsetMM", "drain.wallClearanceMM", "drain.forwardMM", "drain.trapOffsetMM"
	eachOf(t, map[string]problemCase{
		"back, at the end":             {shifted(job.FallBack, 300), ""},
		"back, a hair past":            {shifted(job.FallBack, -300-0.9*hair), ""},
		"back, past the end":           {shifted(job.FallBack, 300+1.05*hair), offset},
		"back, past the other":         {shifted(job.FallBack, -300-1.05*hair), offset},
		"front, past the end":          {shifted(job.FallFront, 300.001), offset},
		"left, at the end":             {shifted(job.FallLeft, 50), ""},
		"left, past the end":           {shifted(job.FallLeft, 50.001), offset},
		"right, at the end":            {shifted(job.FallRight, -50), ""},
		"right, past the end":          {shifted(job.FallRight, -50.001), offset},
		"mid, at the end":              {shifted(job.FallMid, 300), ""},
		"mid, past the end":            {shifted(job.FallMid, 300.001), offset},
		"point, at the end":            {shifted(job.FallPoint, 665), ""},
		"point, past the end":          {shifted(job.FallPoint, 665.001), offset},
		"room, at the end":             {shifted(job.FallRoom, -665), ""},
		"room, past the end":           {shifted(job.FallRoom, -665.001), offset},
		"back, nearly across":          {clear(job.FallBack, 300, 299.9), ""},
		"back, across":                 {clear(job.FallBack, 300, 300), wall},
		"front, across":                {clear(job.FallFront, 300, 300), wall},
		"left, far across":             {clear(job.FallLeft, 300, 300), ""},
		"mid knows no wall":            {clear(job.FallMid, 500, 300), ""},
		"mid, at the back":             {forward(job.FallMid, 35), ""},
		"mid, past the back":           {forward(job.FallMid, 34.999), ahead},
		"mid, at the front":            {forward(job.FallMid, 865), ""},
		"mid, past the front":          {forward(job.FallMid, 865.001), ahead},
		"point, past the front":        {forward(job.FallPoint, 865.001), ahead},
		"back knows no way ahead":      {forward(job.FallBack, 1), ""},
		"trap at the end":              {trap(job.FallBack, 800, 110, 345), ""},
		"trap a hair past":             {trap(job.FallBack, 800, 110, -345-0.9*hair), ""},
		"trap past the end":            {trap(job.FallBack, 800, 110, 345+1.05*hair), under},
		"trap past the other":          {trap(job.FallBack, 800, 110, -345.001), under},
		"trap larger than the drain":   {trap(job.FallMid, 400, 500, 0), ""},
		"and shifted":                  {trap(job.FallMid, 400, 500, 0.001), under},
		"point drain, trap's is under": {trap(job.FallPoint, 400, 500, 9), ""},
	})
}
