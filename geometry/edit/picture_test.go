package edit_test

import (
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// What is had otherwise in the picture is kept beside its light, a thing once; as usual again, nothing is kept.
func TestThePictureIsKept(t *testing.T) {
	j := job.New()
	do := func(e edit.Edit) {
		t.Helper()
		j = e.Apply(j)
		if p := j.Validate(); len(p) > 0 {
			t.Fatal(p)
		}
	}
	do(edit.Light(job.Light{Kind: job.LightOvercast, Hour: 11}))
	do(edit.Thing(job.Thing{Kind: job.ThingStool, Cleared: true}))
	do(edit.Thing(job.Thing{Kind: job.ThingPlant, AlongMM: -200}))
	do(edit.Thing(job.Thing{Kind: job.ThingStool, Other: true}))
	if p := j.Picture; p == nil || p.Kind != job.LightOvercast || len(p.Things) != 2 ||
		p.Had(job.ThingStool) != (job.Thing{Kind: job.ThingStool, Other: true}) || p.Had(job.ThingPlant).AlongMM != -200 {
		t.Fatalf("%+v", p)
	}
	do(edit.Thing(job.Thing{Kind: job.ThingPlant}))
	do(edit.ThingsBack())
	if p := j.Picture; p == nil || len(p.Things) != 0 {
		t.Errorf("%+v", p)
	}
	do(edit.Wet(true))
	if do(edit.Light(job.UsualPicture().Light)); j.Picture == nil || !j.Picture.Wet {
		t.Errorf("by day the floor is kept wet as %+v", j.Picture)
	}
	if do(edit.Wet(false)); j.Picture != nil {
		t.Errorf("as usual it is %+v", j.Picture)
	}
}
