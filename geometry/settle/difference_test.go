package settle

import (
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

func TestDiffering(t *testing.T) {
	a := job.New()
	a.Room.Stacks = []job.Stack{{At: plan.Point{1, 2}}}
	b := a.Clone()
	if keys := differing(&a, &b); len(keys) > 0 {
		t.Fatal(keys)
	}
	forward := 300.0
	b.Version, b.Name = 1, "Other"
	b.SetStanding("shower.widthMM", job.Held)
	b.Room.Outline[2] = plan.Point{2500, 1900}
	b.Room.Doorways[0].OffsetMM++
	b.Room.Windows = []job.Window{{}}
	b.Room.Stacks[0].At[1] = 3
	b.Drain.ForwardMM = &forward
	b.Waste.BoreMM++
	b.Waste.Exit.Level = job.Exactly(3)
	want := []string{"name", "room.outline", "room.doorways[0].offsetMM", "room.windows", "room.stacks[0].at[1]", "drain.forwardMM",
		"waste.boreMM", "waste.exit.level"}
	if got := differing(&a, &b); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	for _, key := range want {
		if !carry(&a, &b, key) {
			t.Errorf("%s leads nowhere", key)
		}
	}
	if keys := differing(&a, &b); len(keys) > 0 {
		t.Errorf("after carrying all: %q", keys)
	}
	for _, key := range []string{"", "room.cellar", "room.doorways[4].offsetMM", "room.doorways[x].offsetMM", "waste.vent.atMM", "shower.widthMM.x"} {
		if carry(&a, &b, key) {
			t.Errorf("%q leads somewhere", key)
		}
	}
}

func BenchmarkDiffering(b *testing.B) {
	one := job.New()
	other := one.Clone()
	for b.Loop() {
		differing(&one, &other)
	}
}
