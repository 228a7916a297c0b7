package lists

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/guard"
	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// looking is what is looked at, as usual.
func looking(t *testing.T) *sight.Sight {
	return sight.New(func(f func()) { f() }, guard.New(func(f guard.Fault) { t.Error(f) }, nil))
}

// Levels are told from what they are counted from: the tile at the drain of the starting job is 108 over its
// slab and 95 over its room's floor at 13; and what they are counted from is said.
func TestLevelsAreCountedFromWhatIsChosen(t *testing.T) {
	roomtest.British(t)
	first, s := geometry.Evaluate(job.New(), demotest.Shown(t)[0].Pack), looking(t)
	l := NewLevels(control.NewKeys(), s, func(buildup.Row) {})
	l.Show(first, first.Answer(nil))
	tile := message.Of("levels.value", message.At("value", first.Heights.TileMM))
	for of, want := range map[geometry.DatumOf]string{geometry.OverStructure: "+108", geometry.OverRoom: "+95"} {
		s.Change(func(s *sight.State) { s.Datum = of })
		l.Follow()
		if got := l.say(tile); !strings.HasPrefix(got, want) {
			t.Errorf("%s: %s, want %s", of, got, want)
		}
		if name := theme.Word(of.Name()); !strings.Contains(l.stack.Text, name) {
			t.Errorf("%q does not say %q", l.stack.Text, name)
		}
	}
}

// What has been measured shows as an instruction. The first job that Underfall comes with has
// 3 mm of bed, so a base 2 mm too low asks for 5 mm.
func TestAsBuiltSaysWhatToDo(t *testing.T) {
	roomtest.British(t)
	first := demotest.Shown(t)[0]
	l := NewLevels(control.NewKeys(), looking(t), func(buildup.Row) {})
	j := first.Stated.Clone()
	top := first.Heights.BaseTopMM - 2
	j.AsBuilt.BaseTopMM = &top
	measured := geometry.Evaluate(j, first.Pack)
	l.Show(measured, measured.Answer(nil))
	if !l.now.Visible() || !strings.Contains(l.now.Text, "Bed under the former 5 mm instead of 3 mm") {
		t.Errorf("a low base is answered by %q", l.now.Text)
	}
	low := top - 30
	j.AsBuilt.FormerAtDrainMM = &low
	measured = geometry.Evaluate(j, first.Pack)
	l.Show(measured, measured.Answer(nil))
	if !strings.Contains(l.now.Text, "Measure again") {
		t.Errorf("levels that cannot both be are answered by %q", l.now.Text)
	}
	l.Show(first, first.Answer(nil))
	if l.now.Visible() {
		t.Errorf("nothing is measured, yet it says %q", l.now.Text)
	}
}

// Every line of checks and levels says all that it has to say, in as many lines as that takes, however wide the list is; rows that
// are not seen are not measured.
func TestRowsAreToldInWhole(t *testing.T) {
	roomtest.British(t)
	for _, r := range demotest.Shown(t) {
		checks, levels := NewChecks(control.NewKeys(), func(rule.Check) {}), NewLevels(control.NewKeys(), looking(t), func(buildup.Row) {})
		toldInWhole(t, r.Stated.Name+", checks", checks.lines, checks.Object(), func() { checks.Show(r) })
		toldInWhole(t, r.Stated.Name+", levels", levels.lines, levels.Object(), func() { levels.Show(r, r.Answer(nil)) })
	}
}

// toldInWhole shows a list at some widths: no text reaches over one beside or under it, nor out of the list.
func toldInWhole(t *testing.T, what string, l *inLines, all fyne.CanvasObject, show func()) {
	t.Helper()
	w := test.NewTempWindow(t, all)
	frames := roomtest.NewFrames()
	for _, width := range []float32{344, 260} {
		w.Resize(fyne.NewSize(width, 5000))
		l.setAway(true)
		show()
		if l.fitted {
			t.Errorf("%s, %v wide: the rows are measured though they are not seen", what, width)
		}
		l.setAway(false)
		frames.Settle(w.Content())
		type box struct {
			at   fyne.Position
			size fyne.Size
			said string
		}
		var before []box
		roomtest.EachShown(l.list, func(o fyne.CanvasObject) {
			said, ok := o.(*control.Text)
			if !ok {
				return
			}
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(said)
			is := box{at, fyne.NewSize(said.Size().Width, said.MinSize().Height), said.Text}
			if least := said.MinSize().Width; is.size.Width+0.5 < least || is.at.X+is.size.Width > width {
				t.Errorf("%s, %v wide: %q has %v, needs %v, ends at %v", what, width, is.said, is.size.Width, least, is.at.X+is.size.Width)
			}
			for _, b := range before {
				if is.at.X+0.5 < b.at.X+b.size.Width && b.at.X+0.5 < is.at.X+is.size.Width &&
					is.at.Y+0.5 < b.at.Y+b.size.Height && b.at.Y+0.5 < is.at.Y+is.size.Height {
					t.Errorf("%s, %v wide: %q lies over %q", what, width, is.said, b.said)
				}
			}
			before = append(before, is)
		})
		if len(before) < 20 {
			t.Errorf("%s: only %d texts show", what, len(before))
		}
	}
}

// What is broken stands over what is kept, and nothing is left out.
func TestBrokenChecksComeFirst(t *testing.T) {
	roomtest.British(t)
	mixed := false
	for _, r := range demotest.Shown(t) {
		c := NewChecks(control.NewKeys(), func(rule.Check) {})
		c.Show(r)
		all := r.Pack.Checks(r.Measured)
		if len(c.checks) != len(all) {
			t.Errorf("%s: %d of %d checks are listed", r.Stated.Name, len(c.checks), len(all))
		}
		for i, k := range c.checks[1:] {
			if !k.Kept && c.checks[i].Kept {
				t.Errorf("%s: %s is broken and stands under what is kept", r.Stated.Name, k.Key())
			}
		}
		mixed = mixed || len(all) > 1 && all[0].Kept && !c.checks[0].Kept
	}
	if !mixed {
		t.Error("in no job is what is broken found after what is kept")
	}
}

// A line of the checks goes to its place and tells where its limit is from.
func TestAChosenCheckTellsItsSource(t *testing.T) {
	roomtest.British(t)
	for _, r := range demotest.Shown(t) {
		var at *rule.Check
		c := NewChecks(control.NewKeys(), func(k rule.Check) { at = &k })
		c.Show(r)
		if len(c.checks) == 0 {
			t.Fatalf("%s: nothing was held against a limit", r.Stated.Name)
		}
		for i, k := range c.checks {
			c.lines.list.OnSelected(i)
			if at == nil || at.Key() != k.Key() {
				t.Errorf("%s: %s does not go to its place", r.Stated.Name, k.Key())
			}
			if document := k.Rule.Source.Document; !strings.Contains(c.detail.Text, document) {
				t.Errorf("%s: %s says %q without %q", r.Stated.Name, k.Key(), c.detail.Text, document)
			}
		}
	}
}
