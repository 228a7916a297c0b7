package tray_test

import (
	"reflect"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/tray"
	"underfall/geometry/job"
	"underfall/geometry/unit"
)

// A unit that does not belong, half a number or a word leaves every field of the job with the value that it had and says
// why, whatever it is of; what is pasted into a table does too.
func TestWrongUnitsLeaveEveryFieldAsItWas(t *testing.T) {
	b := at(t, withEveryList(t))
	seen := map[unit.Kind]int{}
	refuse := func(key string, kind unit.Kind, r *tray.NumberRow) {
		if r == nil || !r.There() {
			return
		}
		seen[kind]++
		for _, typed := range []string{"12 kg", wrongFor(kind), "1..2", "=3*", "about 5"} {
			before := b.job.Clone()
			b.typed(r, typed, fyne.KeyReturn)
			if !reflect.DeepEqual(b.job, before) {
				t.Fatalf("%s takes %q", key, typed)
			}
			if r.Says() == "" {
				t.Errorf("%s says nothing of %q", key, typed)
			}
		}
	}
	for _, in := range job.Inputs() {
		if !in.Uses(&b.job) {
			continue
		}
		b.Reveal(in.Key)
		if in.Table != nil {
			r := b.table(t, in.Key)
			for c, column := range in.Table.Columns {
				if len(in.Table.Rows(&b.job)) > 0 {
					refuse(in.Key+column.Key, column.Kind, r.Cell(0, c))
				}
			}
			before := b.job.Clone()
			if cell := r.Cell(0, 0); len(in.Table.Columns) > 1 && cell != nil && cell.There() {
				b.pasted(cell, "1 kg; 2 kg\n3 kg; 4 kg")
				if r.Says() == "" || !reflect.DeepEqual(b.job, before) {
					t.Errorf("%s takes what is pasted into it: it says %q", in.Key, r.Says())
				}
			}
			continue
		}
		if r, is := b.Row(in.Key).(*tray.NumberRow); is {
			refuse(in.Key, r.Kind, r)
		}
		if in.Things == nil {
			continue
		}
		for _, e := range in.Things.Entries() {
			b.Reveal(in.Key + "[0]." + e.Key)
			if r, is := b.Row(in.Key + " " + e.Key).(*tray.NumberRow); is {
				refuse(in.Key+" "+e.Key, r.Kind, r)
			}
		}
	}
	for _, kind := range []unit.Kind{unit.Length, unit.Along, unit.Slope, unit.Flow, unit.Angle} {
		if seen[kind] == 0 {
			t.Errorf("no field of the kind %s was asked", kind)
		}
	}
	asked := 0
	for _, n := range seen {
		asked += n
	}
	// The table of inputs has some 250 numbers; those of fields that this job has no use for are not there.
	if asked < 150 {
		t.Errorf("%d fields were asked", asked)
	}
}

// In a job in millimetres feet and inches do belong.
func TestFeetAndInchesBelongInMillimetres(t *testing.T) {
	b := at(t, job.New())
	width := b.number(t, "shower.widthMM")
	if b.typed(width, `4' 6"`, fyne.KeyReturn); b.job.Shower.WidthMM != 54*25.4 {
		t.Errorf("%v wide, it says %q", b.job.Shower.WidthMM, width.Says())
	}
}

// withEveryList is a job on joists that falls to a point and has one of everything that there may be several of.
func withEveryList(t *testing.T) job.Job {
	t.Helper()
	full := job.New()
	full.Floor.Kind, full.Former.Fall = job.FloorTimber, job.FallPoint
	for _, l := range job.Lists() {
		if l.Count(&full) == 0 {
			l.Add(&full)
		}
	}
	if p := full.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	return full
}

// wrongFor is a number in a unit that does not belong to one of a kind.
func wrongFor(kind unit.Kind) string {
	switch kind {
	case unit.Flow:
		return "45°"
	case unit.Time:
		return "3 m"
	}
	return "3.2 l/s"
}
