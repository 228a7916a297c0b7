package search

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/parallel"
)

// A search that breaks comes back with the fault.
func TestSearchFault(t *testing.T) {
	packs := demotest.Packs(t)
	j := demotest.Rooms(t)[0].Job
	_, err := Runs(context.Background(), j, packs[j.Region], UsualExits(j, 1000)[:1], UsualGrid(), func(float64) { panic("progress broke") })
	var fault *parallel.Fault
	if !errors.As(err, &fault) || !strings.Contains(fault.What, "progress broke") {
		t.Errorf("the caller hears of %v", err)
	}
}

// A search for runs in a job that means nothing says why it finds none; it used
// to come back as if no run could be built.
func TestSearchSaysWhyItCannotLook(t *testing.T) {
	j := job.New()
	j.Shower.WidthMM = math.NaN()
	s, err := Runs(context.Background(), j, demotest.Packs(t)["UK"], UsualExits(job.New(), 400), UsualGrid(), nil)
	if err == nil || !strings.Contains(message.OfError(err).String(), "parameter.shower.widthMM}, what: problem.not-a-number") || s.Tried != 0 {
		t.Errorf("error %v, %d ways tried", err, s.Tried)
	}
}
