package trial

import (
	"bytes"
	"context"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/golden"
	"underfall/app/paint"
	"underfall/app/roomtest"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/search"
	"underfall/geometry/section"
	"underfall/geometry/settle"
	"underfall/geometry/solid"
	"underfall/geometry/unit"
	"underfall/geometry/unknown"
)

// bench is a room over a desk, as the window has it.
type bench struct {
	*roomtest.Bench
	*Room
	window fyne.Window
	ended  message.Message // why the last trial ended by itself
	look   *looked
}

// looked is what a trial shows as worth looking at.
type looked struct {
	widget.BaseWidget
	x    *unknown.Exploration
	seen func(edit.Edit)
}

// CreateRenderer shows nothing.
func (l *looked) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(control.NewText(""))
}

// Tell keeps what is told.
func (l *looked) Tell(x *unknown.Exploration, _ unit.System) { l.x = x }

func onBench(t *testing.T, j job.Job, size fyne.Size) *bench {
	t.Helper()
	b := &bench{Bench: roomtest.New(t, j)}
	keys := control.NewKeys()
	b.Room = New(Asks{Try: b.Desk.Try, Result: b.Desk.Result, Keep: func(e edit.Edit) { b.Desk.Do(e) }, OnWindow: b.Do,
		Opened: func() { b.ended = message.Message{} }, Ended: func(why message.Message) { b.ended = why },
		Look: func(seen func(edit.Edit)) Look {
			b.look = &looked{seen: seen}
			b.look.ExtendBaseWidget(b.look)
			return b.look
		}}, keys, b.Theme, b.Painter(), b.Guard)
	keys.Plain = func(k *fyne.KeyEvent) { b.Key(k.Name) }
	b.Desk.Subscribe(func(c desk.Change) { b.Follow(c) })
	b.window = test.NewTempWindow(t, b.Object())
	b.window.SetPadded(false)
	b.window.Resize(size)
	t.Cleanup(b.PutBack)
	return b
}

// usual is the room of a window of the usual size.
func usual() fyne.Size { return fyne.NewSize(1256, 680) }

// begin begins a trial and waits for its first verdict.
func (b *bench) begin(t *testing.T, tr Trial) {
	t.Helper()
	b.Open(tr)
	b.Until("the verdict", b.Running)
}

// bytesOf is a job as its file has it.
func bytesOf(t *testing.T, j job.Job) []byte {
	t.Helper()
	data, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// said is all that shows of the room.
func (b *bench) said() string {
	var out []string
	roomtest.EachShown(b.Object(), func(o fyne.CanvasObject) {
		if text, ok := o.(*control.Text); ok && text.Text != "" {
			out = append(out, text.Text)
		}
	})
	return strings.Join(out, "\n")
}

// offered are ways to put right what is wrong with a job.
func offered(t *testing.T, r geometry.Result) (out []Trial) {
	t.Helper()
	for _, c := range r.Answer(nil).Cards {
		all, _ := fit.Offers(r, c, 0)
		var ways []Way
		for _, o := range all {
			ways = append(ways, Way{Does: o.Does, Edit: o.Edit, Cut: CutOf(r, o.For), Ends: o.For})
		}
		for i := range ways {
			out = append(out, Trial{Ways: ways, At: i})
		}
	}
	return out
}

// slower makes a trial of a fall of the floor that is another.
func anotherFall(slope float64) Trial {
	return Trial{Ways: []Way{{Does: message.Of("edit.fall"), Cut: section.Cutting{Of: section.CutDrain},
		Edit: edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Former.Slope = slope })}}}
}

// Every change that puts something right in any demo can be tried. Put back, the job is byte for byte what it was, and
// there is no step to undo; kept, it is one step, called as what was tried, and undone it is the same job again.
func TestRemediesTried(t *testing.T) {
	n := 0
	for _, demo := range demotest.Shown(t) {
		b := onBench(t, demo.Stated, usual())
		was := bytesOf(t, b.Desk.Job())
		all := offered(t, b.Desk.Result())
		for i, tr := range all {
			b.Open(tr)
			b.Until("the verdict or a refusal", func() bool { return b.Running() || !b.ended.IsZero() || b.Change.Refused != nil })
			if !b.Running() {
				t.Errorf("%s: %s is offered and cannot be tried: %v %v", demo.Stated.Name, tr.way().Does, b.ended, b.Change.Problems)
				continue
			}
			n++
			if b.PutBack(); b.Running() || !bytes.Equal(bytesOf(t, b.Desk.Job()), was) || !b.Change.Undo.IsZero() {
				t.Errorf("%s: %s put back leaves another job", demo.Stated.Name, tr.way().Does)
			}
			if i > 0 {
				continue // the first of a demo is kept as well
			}
			b.begin(t, tr)
			b.Keep()
			b.Until("the step", func() bool { return b.Change.Undo.String() == tr.way().Does.String() })
			if bytes.Equal(bytesOf(t, b.Desk.Job()), was) {
				t.Errorf("%s: %s kept changes nothing", demo.Stated.Name, tr.way().Does)
			}
			b.Desk.Undo()
			b.Until("undo", func() bool { return b.Change.Undo.IsZero() })
			if !bytes.Equal(bytesOf(t, b.Desk.Job()), was) {
				t.Errorf("%s: %s is more than one step", demo.Stated.Name, tr.way().Does)
			}
		}
	}
	if n < 10 {
		t.Errorf("only %d remedies were tried", n)
	}
}

// Before and after are cut at the same place and looked at the same way, and as much of it is shown of both, whatever is
// tried: what puts something right in any demo, in joists that the run crosses and in a pipe that is too flat, and runs
// that lead elsewhere. What is to be ended is in sight on both where it lies near the cut.
func TestBothSidesAreCutAlike(t *testing.T) {
	across := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&across, 150)
	elsewhere := func(by int) Trial {
		lead := edit.Of(message.Of("edit.test"), func(j *job.Job) {
			j.Waste.Exit.Wall = (j.Waste.Exit.Wall + by) % len(j.Room.Outline)
			j.Drain.OutletTurnDeg = math.Mod(j.Drain.OutletTurnDeg+90*float64(by), 360)
		})
		return Trial{Ways: []Way{{Does: message.Of("edit.run"), Edit: lead, Cut: section.Cutting{Of: section.CutPipe}}}}
	}
	jobs := []job.Job{across}
	for _, demo := range demotest.Shown(t) {
		jobs = append(jobs, demo.Stated)
	}
	n, inSight, otherwise := 0, 0, 0
	for _, j := range jobs {
		was := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
		all := offered(t, was)
		all = append(all, elsewhere(1), elsewhere(2), elsewhere(3))
		for _, tr := range all {
			way := tr.way()
			is := geometry.EvaluateAfter(was, settle.Do(was.Stated, way.Edit).Job, was.Pack)
			if len(is.Problems) > 0 {
				continue
			}
			n++
			cuts, home := shared(was, is, way, plan.Point{})
			var planes [2]solid.Cut
			var drawings [2]drawn
			for i, r := range []geometry.Result{was, is} {
				var err error
				if planes[i], err = cuts[i].Plane(r); err != nil {
					t.Fatalf("%s, %s: %v", j.Name, way.Does, err)
				}
				if drawings[i], err = sectionOf(r, cuts[i], nil, nil); err != nil {
					t.Fatalf("%s, %s: %v", j.Name, way.Does, err)
				}
			}
			if a, b := planes[before], planes[after]; a.Origin.Sub(b.Origin).Len() > 0.01 || a.Normal.Sub(b.Normal).Len() > 1e-6 {
				t.Errorf("%s, %s: before is cut at %v looking %v, after at %v looking %v",
					j.Name, way.Does, a.Origin, a.Normal, b.Origin, b.Normal)
			}
			if cuts[before] != cuts[after] {
				otherwise++
			}
			drawings[home].lookAt([]geometry.Result{was, is}[home], cuts[home], hits(was, way.Ends, nil))
			asOne(&drawings[home], &drawings[1-home])
			if a, b := &drawings[before], &drawings[after]; a.FocusLow != b.FocusLow || a.FocusHigh != b.FocusHigh {
				t.Errorf("%s, %s: shown are %v to %v before and %v to %v after",
					j.Name, way.Does, a.FocusLow, a.FocusHigh, b.FocusLow, b.FocusHigh)
			}
			if at := way.Ends.Measurement.At; placed(way.Ends) && math.Abs(planes[before].Side(at)) < nearMM {
				d := &drawings[after]
				if x := d.Cut.Flat(at).X(); x < d.FocusLow.X() || x > d.FocusHigh.X() {
					t.Errorf("%s, %s: what it is to end lies at %.0f, shown are %v to %v", j.Name, way.Does, x, d.FocusLow, d.FocusHigh)
				}
				inSight++
			}
		}
	}
	if n < 20 || inSight < 8 || otherwise < 3 {
		t.Errorf("%d tried, %d with their place in sight, %d where the cut of that name lies elsewhere", n, inSight, otherwise)
	}
}

// A trial runs the way that the section ran which was being read: cut along the pipe or through the drain it is not mirrored, whichever way
// that ran, and before and after still lie in one plane. Where the section ran across it runs its own way.
func TestATrialIsNotMirrored(t *testing.T) {
	n := 0
	for _, was := range demotest.Shown(t) {
		for _, of := range [...]section.CuttingOf{section.CutPipe, section.CutDrain} {
			way := Way{Cut: section.Cutting{Of: of}}
			own, err := way.Cut.Plane(was)
			if err != nil {
				continue
			}
			n++
			runs := plan.Point{own.Along.X(), own.Along.Y()}
			against := runs.Mul(-1)
			for _, c := range []struct{ read, want plan.Point }{{runs, runs}, {against, against}, {plan.Left(runs), runs}, {plan.Point{}, runs}} {
				cuts, _ := shared(was, was, way, c.read)
				for i := range cuts {
					got, err := cuts[i].Plane(was)
					if err != nil || (plan.Point{got.Along.X(), got.Along.Y()}).Sub(c.want).Len() > 1e-6 || math.Abs(got.Side(own.Origin)) > 1e-6 {
						t.Errorf("%s, %s: read along %v it runs along %v, want %v (%v)", was.Settled.Name, of, c.read, got.Along, c.want, err)
					}
				}
			}
		}
	}
	if n < 5 {
		t.Errorf("only %d cuts are tried", n)
	}
}

// Runs that were found, and parts of the shelf, are tried and put back with nothing changed.
func TestRunsAndPartsTried(t *testing.T) {
	j := roomtest.First(t)
	b := onBench(t, j, usual())
	was := bytesOf(t, b.Desk.Job())
	found, err := search.Runs(context.Background(), j, b.Desk.Regions()[j.Region], search.UsualExits(j, 600), search.UsualGrid(), nil)
	if err != nil || len(found.Found) < 2 {
		t.Fatalf("%d runs found: %v", len(found.Found), err)
	}
	var ways []Way
	for _, a := range found.Found[:min(4, len(found.Found))] {
		ways = append(ways, Way{Does: a.Job.LeadsTo(), Edit: a.Change, Cut: section.Cutting{Of: section.CutPipe}})
	}
	shelf := demotest.Shelf()
	for _, d := range shelf.Drains[:min(4, len(shelf.Drains))] {
		if d.Linear == j.Former.Fall.Linear() {
			ways = append(ways, Way{Does: part.Name(d), Edit: edit.UsePart(d), Cut: section.Cutting{Of: section.CutDrain}})
		}
	}
	b.begin(t, Trial{Ways: ways})
	for range ways {
		// The first of the others, by its key.
		next := b.others()[0]
		b.Key(fyne.Key1)
		b.Until("the other", func() bool { return b.Trial().At == next && b.Running() && !b.cold() })
	}
	b.PutBack()
	if !bytes.Equal(bytesOf(t, b.Desk.Job()), was) || !b.Change.Undo.IsZero() || !b.ended.IsZero() {
		t.Errorf("the job is another: %v, %v", b.Change.Undo, b.ended)
	}
}

// cold tells that what is tried has not been worked out yet.
func (b *bench) cold() bool { return b.sides[after].result.Stated.Version == 0 }

// A trial ends, put back and with the reason said, with whatever makes the job another: an edit, undo, typing, an edit
// that is refused, another job, and a job that is only looked at from then on; also while Space is held. What is tried
// after that is shown as ever.
func TestATrialEndsWithTheJob(t *testing.T) {
	slope := func(to float64) edit.Edit {
		return edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Former.Slope = to })
	}
	nonsense := edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Former.Slope = -1 })
	for why, do := range map[message.ID]func(*bench){
		"trial.ended-changed": func(b *bench) { b.Desk.Do(slope(0.022)) },
		"trial.ended-typing":  func(b *bench) { b.Desk.Preview(slope(0.022)) },
		"trial.ended-refused": func(b *bench) { b.Desk.Do(nonsense) },
		"trial.ended-other": func(b *bench) {
			if err := b.Desk.Replace(demotest.Shown(t)[1].Stated); err != nil {
				t.Fatal(err)
			}
		},
	} {
		b := onBench(t, roomtest.First(t), usual())
		b.begin(t, anotherFall(0.03))
		b.band.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
		do(b)
		b.Until(string(why), func() bool { return !b.Running() })
		if got := b.ended.String(); !strings.Contains(got, string(why)) {
			t.Errorf("%s: ended for %s", why, got)
		}
		if b.Desk.Job().Former.Slope == 0.03 {
			t.Errorf("%s: what was tried was kept", why)
		}
		// Space, that was down all the time, is let go, and pressed again once there is nothing to hold.
		b.band.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
		b.band.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
		b.Key(fyne.KeyReturn)
		b.Key(fyne.Key1)
		if b.Running() || b.held || b.Desk.Job().Former.Slope == 0.03 {
			t.Errorf("%s: keys of a trial that has ended: shown %v, held %v", why, b.Running(), b.held)
		}
		b.Desk.EndPreview()
		b.Desk.Dismiss()
		b.Until("rest", func() bool { return !b.Change.Preview && b.Change.Refused == nil && len(b.Change.Problems) == 0 })
		b.begin(t, anotherFall(0.03))
		if headline := b.panes[after].headline.Text; !strings.HasPrefix(headline, "After:") {
			t.Errorf("%s: tried again, “%s” is shown as what comes after", why, headline)
		}
	}
	b := onBench(t, roomtest.First(t), usual())
	b.Desk.Do(slope(0.022))
	b.Until("the edit", func() bool { return !b.Change.Undo.IsZero() })
	b.begin(t, anotherFall(0.03))
	b.Desk.Undo()
	b.Until("undo", func() bool { return !b.Running() })
	if b.ended.IsZero() || b.Desk.Job().Former.Slope == 0.022 {
		t.Errorf("undo left %v and ended for %v", b.Desk.Job().Former.Slope, b.ended)
	}
}

// A job that is dragged can be tried on between two steps of the drag, as it is by then; the next step ends the trial, shown or still being
// worked out, with the reason said for as long as nobody begins another: also a step by which the job stops, or no longer does. What was
// dragged is what the job is, nothing of what was tried.
func TestADragEndsATrial(t *testing.T) {
	dragged := func(change func(*job.Job)) edit.Edit { return edit.Of(message.Of("edit.test"), change) }
	low := func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 20 } // the pipe is thicker
	for name, c := range map[string]struct {
		from, to    func(*job.Job)
		stops, cold bool
	}{
		"shown":             {func(j *job.Job) { j.Former.Slope = 0.021 }, func(j *job.Job) { j.Former.Slope = 0.022 }, false, false},
		"not yet shown":     {func(j *job.Job) { j.Former.Slope = 0.021 }, func(j *job.Job) { j.Former.Slope = 0.022 }, false, true},
		"it stops":          {func(j *job.Job) { j.Former.Slope = 0.021 }, low, true, false},
		"it stops, cold":    {func(j *job.Job) { j.Former.Slope = 0.021 }, low, true, true},
		"it stopped before": {low, func(j *job.Job) { j.Base = roomtest.First(t).Base }, false, false},
	} {
		b := onBench(t, roomtest.First(t), usual())
		b.Desk.DoLive("drag", dragged(c.from))
		b.Open(anotherFall(0.03))
		if !c.cold {
			b.Until(name+": the verdict", b.Running)
		}
		if !b.ended.IsZero() {
			t.Errorf("%s: ended by the step before it for %s", name, b.ended)
		}
		if p := b.Desk.DoLive("drag", dragged(c.to)); len(p) > 0 {
			t.Fatalf("%s: %v", name, p)
		}
		b.Until(name+": the end", func() bool { return !b.ended.IsZero() })
		want := roomtest.First(t) // each step of a drag is made of the job before it
		c.to(&want)
		b.Until(name+": the step", func() bool { return bytes.Equal(bytesOf(t, b.Change.Result.Stated), bytesOf(t, want)) })
		if got := b.Change.Result.Answer(nil).Standing == geometry.Stops; got != c.stops {
			t.Errorf("%s: it stops %v", name, got)
		}
		b.Desk.Settle()
		if got := b.ended.String(); b.Running() || !strings.Contains(got, "trial.ended-changed") {
			t.Errorf("%s: shown %v, ended for %s", name, b.Running(), got)
		}
		b.Desk.Undo()
		b.Until(name+": undone", func() bool { return b.Change.Undo.IsZero() })
		if !bytes.Equal(bytesOf(t, b.Desk.Job()), bytesOf(t, roomtest.First(t))) {
			t.Errorf("%s: the drag was more than one step, or something of the trial was made", name)
		}
	}
}

// A job that another window takes over ends the trial: it is only looked at from then on, and nothing is tried of it.
func TestATakeOverEndsATrial(t *testing.T) {
	b := onBench(t, roomtest.First(t), usual())
	path := filepath.Join(t.TempDir(), "a.json")
	if err := b.Desk.Save(path); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = b.Desk.Release() })
	b.begin(t, anotherFall(0.03))
	other := roomtest.New(t, roomtest.First(t))
	if err := other.Desk.Open(path); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = other.Desk.Release() })
	taken := make(chan error, 1)
	go func() { taken <- other.Desk.TakeOver(context.Background()) }()
	b.Until("the end", func() bool { b.Desk.HandOver(); return !b.Running() })
	if err := <-taken; err != nil {
		t.Fatal(err)
	}
	if got := b.ended.String(); !strings.Contains(got, "trial.ended-looking") {
		t.Errorf("ended for %s", got)
	}
	b.Open(anotherFall(0.03))
	b.Until("the refusal", func() bool { return len(b.Change.Problems) > 0 })
	if b.Running() {
		t.Error("a job that is only looked at is tried on")
	}
}

// What cannot be is not tried: the refusal stands with the desk, the trial that was shown is put back, and the job is
// what it was. A change that no floor comes of is told so.
func TestWhatIsRefusedIsNotTried(t *testing.T) {
	b := onBench(t, roomtest.First(t), usual())
	was := bytesOf(t, b.Desk.Job())
	b.begin(t, anotherFall(0.03))
	b.Open(anotherFall(-1))
	b.Until("the refusal", func() bool { return b.Change.Refused != nil })
	if b.Running() {
		t.Error("what was refused is shown")
	}
	b.Desk.Dismiss()
	if !bytes.Equal(bytesOf(t, b.Desk.Job()), was) {
		t.Error("the job is another")
	}
	b.Desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Former.Slope = 0.021 }))
	b.Until("the edit", func() bool { return !b.Change.Undo.IsZero() })
	if b.Change.Refused != nil {
		t.Error("a refusal that was dismissed came back")
	}
}

// Held down, Space or the band has the job before shown in the place of the one after, and no longer.
func TestHoldingShowsBefore(t *testing.T) {
	for _, size := range []fyne.Size{usual(), fyne.NewSize(1000, 580)} {
		b := onBench(t, roomtest.First(t), size)
		b.begin(t, anotherFall(0.03))
		b.Until("the drawings", func() bool { return b.painted[after][1].image != nil })
		pane := b.panes[after]
		at := pane.plan.Position()
		is, headline := pane.plan.picture.Image, pane.headline.Text
		both := b.panes[before].object.Visible()
		if both != (size == usual()) {
			t.Errorf("in %v both are shown: %v", size, both)
		}
		for name, hold := range map[string][2]func(){
			"Space":    {func() { b.band.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace}) }, func() { b.band.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace}) }},
			"the band": {func() { b.band.MouseDown(nil) }, func() { b.band.MouseUp(nil) }},
			"leaving":  {func() { b.band.MouseDown(nil) }, func() { b.band.MouseOut() }},
		} {
			hold[0]()
			if was, is := b.panes[before], pane; both && (was.plan.Position() != is.plan.Position() || was.ground.Size() != is.ground.Size()) {
				t.Errorf("%s: before lies at %v under a head of %v, after at %v of %v",
					name, was.plan.Position(), was.ground.Size(), is.plan.Position(), is.ground.Size())
			}
			if pane.plan.Position() != at {
				t.Errorf("%s moves the drawings from %v to %v", name, at, pane.plan.Position())
			}
			if pane.plan.picture.Image != b.painted[before][0].image || !strings.HasPrefix(pane.headline.Text, "Before:") {
				t.Errorf("%s does not show before: “%s”", name, pane.headline.Text)
			}
			hold[1]()
			if pane.plan.picture.Image != is || pane.headline.Text != headline || !strings.HasPrefix(headline, "After:") {
				t.Errorf("%s let go does not show after: “%s”", name, pane.headline.Text)
			}
		}
	}
}

// Both chances are counted in as many builds: of a trial that changes nothing that matters to them they are the same.
func TestBothSidesAreCountedAlike(t *testing.T) {
	b := onBench(t, roomtest.First(t), usual())
	b.begin(t, Trial{Ways: []Way{{Does: message.Of("edit.name"), Cut: section.Cutting{Of: section.CutDrain},
		Edit: edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Name = "Another" })}}})
	b.Until("the chances", func() bool { return b.sides[after].counted != nil && !b.sides[after].counted.Rough })
	was, is := b.sides[before].answer(), b.sides[after].answer()
	if !was.Counted || was.InHundred() != is.InHundred() || was.InHundred() == 0 {
		t.Errorf("%d before and %d after", was.InHundred(), is.InHundred())
	}
}

// What is not known of what is tried is carried along, and what is seen of it is tried along: kept it is one step.
func TestWhatIsNotKnownIsCarriedAlong(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j := edit.ExitKind(job.ExitFloor).Apply(edit.Start("UK", shelf))
	j.Standings = nil
	j.SetStanding("floor.kind", job.NotKnown)
	b := onBench(t, j, usual())
	b.begin(t, anotherFall(0.0225))
	b.Until("what may be", func() bool { return b.look.x != nil && b.sides[after].possible != nil })
	if b.look.x.Look == nil {
		t.Fatal("nothing is worth looking at")
	}
	values := b.look.x.Look.Of.Values
	b.look.seen(values[len(values)-1].Edit)
	b.Until("what was seen", func() bool { return len(b.Trial().Seen) == 1 && b.Running() && b.look.x == nil })
	b.Keep()
	b.Until("the step", func() bool { return !b.Change.Undo.IsZero() })
	if kept := b.Desk.Job(); kept.Former.Slope != 0.0225 || slices.Contains(kept.Standing(job.NotKnown), "floor.kind") {
		t.Errorf("kept a fall of %v, with not known: %v", kept.Former.Slope, kept.Standing(job.NotKnown))
	}
	b.Desk.Undo()
	b.Until("undo", func() bool { return b.Change.Undo.IsZero() })
	if back := b.Desk.Job(); !slices.Contains(back.Standing(job.NotKnown), "floor.kind") {
		t.Error("what was seen is a step of its own")
	}
}

// The table tells what changes and the step, in millimetres and in inches.
func TestTheTableTellsWhatChanges(t *testing.T) {
	for u, want := range map[unit.System][]string{unit.Metric: {"Step in", "Tile at the drain"}, unit.Imperial: {"Step in", "\""}} {
		j := roomtest.First(t)
		j.Units = u
		b := onBench(t, j, usual())
		b.begin(t, Trial{Ways: []Way{{Does: message.Of("edit.tile"), Cut: section.Cutting{Of: section.CutWayIn},
			Edit: edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Layers.Shower.Tile.ThicknessMM += 10 })}}})
		said := b.said()
		for _, w := range append(want, "What it changes", "before", "after", "Nothing is changed until you keep it.") {
			if !strings.Contains(said, w) {
				t.Errorf("%s: %q is not said:\n%s", u, w, said)
			}
		}
	}
}

// How a trial looks: a joist cut out, light and dark, both beside each other, in inches in a narrow window, and held down.
func TestATrialAsSeen(t *testing.T) {
	for _, c := range []struct {
		name  string
		size  fyne.Size
		units unit.System
		dark  bool
		held  bool
	}{
		{"clash-light", usual(), unit.Metric, false, false}, {"clash-dark", fyne.NewSize(1896, 960), unit.Metric, true, false},
		{"clash-inches", fyne.NewSize(1000, 580), unit.Imperial, false, false}, {"clash-held", fyne.NewSize(1000, 580), unit.Metric, true, true},
	} {
		j := demotest.Rooms(t)[2].Job.Clone()
		demotest.AcrossJoists(&j, 150)
		j.Units = c.units
		b := onBench(t, j, c.size)
		b.Theme.SetDark(c.dark)
		b.Theme.SetStill(true)
		fyne.CurrentApp().Settings().SetTheme(b.Theme)
		var clash Trial
		for _, tr := range offered(t, b.Desk.Result()) {
			if tr.way().Ends.Rule.ID == "trap-joist" {
				clash = tr
			}
		}
		b.begin(t, clash)
		b.Until("all of it", func() bool {
			return b.painted[after][1].image != nil && b.sides[after].counted != nil && !b.sides[after].counted.Rough
		})
		if !roomtest.NewFrames().Settle(b.window.Content()) {
			t.Fatal("laid out without end")
		}
		b.Until("the drawings", b.worker.Idle)
		b.Settle()
		b.Hold(c.held)
		golden.Check(t, c.name, b.window.Canvas().Capture())
	}
}

// A change that no floor comes of is told with the reason, and nothing is shown of it: here of a desk that lets a fall
// uphill pass.
func TestNoFloorComesOfIt(t *testing.T) {
	b := onBench(t, roomtest.First(t), usual())
	b.asks.Try = func(e edit.Edit) (desk.Tried, job.Problems) {
		return desk.Tried{Before: b.Desk.Job(), Job: e.Apply(b.Desk.Job()), Opened: b.Change.Opened, Edits: b.Change.Edits}, nil
	}
	b.Open(anotherFall(-1))
	b.Until("the reason", func() bool { return b.ended.ID == "trial.not-worked-out" })
	if b.Running() || !b.Change.Undo.IsZero() {
		t.Error("it is shown, or made")
	}
}

// In a trial of what stops in joists every joist that is hit stands out, in the plan and where the section goes across it,
// and only such; a ring whose place is off the sheet is not drawn, as only its leader would come from the rim.
func TestJoistsThatAreHitStandOut(t *testing.T) {
	r := demotest.Shown(t)[5]
	hit := hits(r, rule.Finding{}, nil)
	want := map[string]bool{}
	for _, f := range hit {
		for i := range r.Layout.Joists {
			js := &r.Layout.Joists[i]
			if s := f.Measurement.Subject; strings.HasPrefix(f.Measurement.Quantity, "joist.") && s.Number == js.Number {
				want[js.ID()] = true
			}
		}
	}
	if len(want) < 5 {
		t.Fatalf("only %v are hit", want)
	}
	d := planOf(r, hit, nil, nil)
	for id := range want {
		if !slices.Contains(d.timbers, id) {
			t.Errorf("%s does not stand out: %v do", id, d.timbers)
		}
	}
	v := paint.FitTo(&d.Drawing, 400, 300, 1)
	all := len(ringsOn(d.rings, v, paint.Style{Scale: 1}, nil))
	v.Centre = v.ToDrawing(400, 150) // the left half is off
	for _, pin := range ringsOn(d.rings, v, paint.Style{Scale: 1}, nil) {
		if pin.At[0] < 0 {
			t.Errorf("a ring at %v", pin.At)
		}
		all--
	}
	if all <= 0 {
		t.Error("none was left out")
	}
}
