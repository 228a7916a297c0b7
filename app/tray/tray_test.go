package tray_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/theme"
	"underfall/app/tray"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/sketch"
	"underfall/geometry/unit"
)

// bench is a tray in a window, over a job that takes every sound edit.
type bench struct {
	*tray.Tray
	window   fyne.Window
	job      job.Job
	previews []job.Job
	outside  edit.Outside
}

// at opens a tray over a job.
func at(t *testing.T, j job.Job) *bench {
	t.Helper()
	a := test.NewTempApp(t)
	catalogue, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	th := theme.New(false, catalogue.Book(words.British, unit.Metric, nil))
	a.Settings().SetTheme(th)
	b := &bench{job: j}
	do := func(e edit.Edit) job.Problems {
		after := e.Apply(b.job)
		if p := after.Validate(); len(p) > 0 {
			return p
		}
		b.job = after
		b.Show(b.job)
		return nil
	}
	asks := tray.Asks{Job: func() job.Job { return b.job }, Outside: func() edit.Outside { return b.outside }, Do: do,
		Live: func(_ string, e edit.Edit) job.Problems { return do(e) },
		Preview: func(e edit.Edit) job.Problems {
			b.previews = append(b.previews, e.Apply(b.job))
			return nil
		}, EndPreview: func() {},
		Aimed: func(key string) float64 {
			if key == "asBuilt.baseTopMM" {
				return 81
			}
			return math.NaN()
		}}
	b.Tray = tray.New(asks, part.Shelf{}, control.NewKeys(), th)
	b.window = test.NewTempWindow(t, b.Object())
	b.window.Resize(fyne.NewSize(trayWidth, 700))
	return b
}

// trayWidth is as narrow as the tray is in a small window.
const trayWidth = 290

// typing is what a person types into.
type typing interface {
	fyne.Focusable
	SetText(string)
}

// typed types into a number's field and ends with a key.
func (b *bench) typed(r *tray.NumberRow, s string, key fyne.KeyName) {
	r.Field.Focus()
	e := b.window.Canvas().Focused().(typing)
	e.SetText(s)
	e.TypedKey(&fyne.KeyEvent{Name: key})
}

// number is the field of a number.
func (b *bench) number(t *testing.T, key string) *tray.NumberRow {
	t.Helper()
	r, ok := b.Row(key).(*tray.NumberRow)
	if !ok {
		t.Fatalf("no field for %s", key)
	}
	return r
}

// Every input has a field at its station, which is there exactly when the input can matter.
func TestEveryInputHasAField(t *testing.T) {
	timber := job.New()
	timber.Floor.Kind, timber.Waste.Exit.Kind, timber.Former.Fall = job.FloorTimber, job.ExitPipe, job.FallPoint
	for _, j := range []job.Job{job.New(), timber} {
		b := at(t, j)
		for _, in := range job.Inputs() {
			r := b.Row(in.Key)
			if r == nil {
				t.Errorf("%s has no field", in.Key)
				continue
			}
			if b.Station() != in.Station || r.There() != in.Uses(&b.job) {
				t.Errorf("%s: at %s, there %v, used %v", in.Key, b.Station(), r.There(), in.Uses(&b.job))
			}
			if in.Things == nil {
				continue
			}
			for _, e := range in.Things.Entries() {
				if b.Row(in.Key+" "+e.Key) == nil {
					t.Errorf("%s of %s has no field", e.Key, in.Key)
				}
			}
		}
	}
}

// The less used are there once asked for, and a path of the file leads to the field of what it
// leads to.
func TestLessUsed(t *testing.T) {
	b := at(t, job.New())
	b.Open(job.StationWayOut)
	there := func(key string) bool {
		o, _ := b.Reveal(key)
		return o != nil && o.Visible()
	}
	shown := 0
	for _, r := range b.Rows() {
		if r.There() {
			shown++
		}
	}
	// Through a wall: kind, wall, the ground behind it, place, level, pipe and its fall; no system of pipe, whose sizes it asks for.
	if shown != 7 {
		t.Errorf("%d fields shown at once", shown)
	}
	if !there("waste.boreMM") || b.Station() != job.StationWayOut {
		t.Error("the bore is not led to")
	}
	if b.Open(job.StationRoom); !there("room.doorways[0].leafGapMM") || !there("former.slope") || b.Station() != job.StationDrain {
		t.Errorf("at %s", b.Station())
	}
	if o, _ := b.Reveal("nonsense"); o != nil {
		t.Error("nonsense has a field")
	}
}

// A room is measured by its tape and on the plan: its corners are less used. What gives it a shape is there at once,
// and says itself why a shape is refused.
func TestCornersAreLessUsed(t *testing.T) {
	j := job.New()
	j.Shower.WidthMM, j.Shower.DepthMM = 1800, 1500 // no room for that in an L
	b := at(t, j)
	b.Open(job.StationRoom)
	corners := func() bool {
		return strings.Contains(strings.Join(b.texts(), "\n"), theme.Word("parameter.room.outline"))
	}
	before := pressCalled(b.Object(), "Less used")
	if corners() || before == nil {
		t.Fatalf("corners at once %v, less used %v", corners(), before)
	}
	pressCalled(b.Object(), "Make an L-shape").OnPressed()
	if said := strings.Join(b.texts(), "\n"); len(b.job.Room.Outline) != 4 || !strings.Contains(said, "Shower area: reaches") {
		t.Errorf("%d corners, said is %q", len(b.job.Room.Outline), said)
	}
	before.OnPressed()
	if !corners() {
		t.Error("the corners are not among the less used")
	}
	before.OnPressed()
	if o, _ := b.Reveal("room.outline[2][1]"); !corners() || o == nil || !o.Visible() {
		t.Error("a path does not lead to a corner")
	}
}

// A path to a thing of a list leads to the first that nobody has stated of it, else to its first field;
// where there is none yet, to what adds it.
func TestPathsLeadIntoThings(t *testing.T) {
	usual := job.UsualBeyond()
	for name, c := range map[string]struct {
		job    func(*job.Job)
		path   string
		within string // the key of the row that has the keys then; empty for the button that adds one
	}{
		"assumed": {func(j *job.Job) {
			j.Waste.Beyond = &usual
			j.SetStanding("waste.beyond.joins", job.Assumed)
		}, "waste.beyond", "waste.beyond joins"},
		"stated":     {func(j *job.Job) { j.Waste.Beyond = &usual }, "waste.beyond", "waste.beyond lengthMM"},
		"not stated": {func(j *job.Job) { j.Waste.Beyond = nil }, "waste.beyond", ""},
		"a doorway":  {func(*job.Job) {}, "room.doorways[0]", "room.doorways wall"},
	} {
		j := job.New()
		c.job(&j)
		b := at(t, j)
		o, focus := b.Reveal(c.path)
		if o == nil || focus == nil {
			t.Errorf("%s leads nowhere", name)
			continue
		}
		focus()
		got, _ := b.window.Canvas().Focused().(fyne.CanvasObject)
		in := o
		if c.within != "" {
			in = b.Row(c.within).Object()
		} else if p, ok := got.(*control.Press); !ok || p.Text != "Add the way outside" {
			t.Errorf("%s: %T has the keys", name, got)
		}
		has := false
		roomtest.EachShown(in, func(o fyne.CanvasObject) { has = has || o == got })
		if !has {
			t.Errorf("%s: %T has the keys, not the field of %s", name, got, c.within)
		}
	}
}

// Next goes on from station to station; the last has none.
func TestNextStation(t *testing.T) {
	b := at(t, job.New())
	var opened []job.Station
	b.Opened = func(s job.Station) { opened = append(opened, s) }
	for range 10 {
		p := pressCalled(b.Object(), "Next")
		if p == nil {
			break
		}
		p.OnPressed()
	}
	if !slices.Equal(opened, job.Stations()[1:]) {
		t.Errorf("opened %v", opened)
	}
}

// pressCalled is the button in an object that begins so; nil for none.
func pressCalled(all fyne.CanvasObject, begin string) (found *control.Press) {
	roomtest.EachShown(all, func(o fyne.CanvasObject) {
		if p, ok := o.(*control.Press); ok && strings.HasPrefix(p.Text, begin) && found == nil {
			found = p
		}
	})
	return found
}

// Whether the waste can leave through its wall hangs on what lies behind it: that is asked beside the choice of the wall, of the
// wall that is chosen.
func TestGroundBehindTheExitWall(t *testing.T) {
	j := job.New()
	j.Waste.Exit.Kind, j.Waste.Exit.Wall = job.ExitWall, 1
	j.Room.Walls[1].OutsideGroundMM, j.Room.Walls[2].OutsideGroundMM = nil, nil
	b := at(t, j)
	b.Open(job.StationWayOut)
	var ground *tray.NumberRow
	for _, r := range b.Rows() {
		if n, is := r.(*tray.NumberRow); is && n.There() && n.Key == job.WallsKey+" outsideGroundMM" {
			ground = n
		}
	}
	if ground == nil {
		t.Fatal("the way out does not ask for the ground behind its wall")
	}
	b.typed(ground, "-150", fyne.KeyReturn)
	if g := b.job.Room.Walls[1].OutsideGroundMM; g == nil || *g != -150 {
		t.Errorf("typed, the ground behind the wall is %v", g)
	}
	b.job.Waste.Exit.Wall = 2
	b.Show(b.job)
	if ground.Field.Text() != "" {
		t.Errorf("of another wall it shows %q", ground.Field.Text())
	}
	// It stands on the wall's own tag, and in the room without asking for the less used.
	if tagged := j.Tagged("room.walls[1]"); !slices.Contains(tagged, "room.walls[1].outsideGroundMM") {
		t.Errorf("on the wall's tag stand %q", tagged)
	}
}

// The level of the way out is worked out while it is open: typed it holds exactly and is held,
// emptied it is open again.
func TestWayOutTypedAndEmptied(t *testing.T) {
	b := at(t, job.New())
	b.outside.ExitMM = 9
	r := b.number(t, job.ExitInvertKey)
	b.Show(b.job)
	if r.Field.Text() != "9" {
		t.Errorf("open, it shows %q", r.Field.Text())
	}
	b.typed(r, "12", fyne.KeyReturn)
	if mm, ok := b.job.Waste.Exit.Level.ExactlyMM(); !ok || mm != 12 || b.job.StandingOf(job.ExitLevelKey) != job.Held {
		t.Errorf("typed, it is %v, %v, %q", mm, ok, b.job.StandingOf(job.ExitLevelKey))
	}
	b.typed(r, "", fyne.KeyReturn)
	if k := b.job.Waste.Exit.Level.Kind(); k != job.ExitFree || r.Field.Text() != "9" || b.job.StandingOf(job.ExitLevelKey) != job.Stated {
		t.Errorf("emptied, it is %v and shows %q, %q", k, r.Field.Text(), b.job.StandingOf(job.ExitLevelKey))
	}
}

// A typed number is held; what is refused leaves the number before and says why.
func TestTypedIsHeld(t *testing.T) {
	b := at(t, job.New())
	r := b.number(t, "shower.depthMM")
	b.typed(r, "950", fyne.KeyReturn)
	if b.job.Shower.DepthMM != 950 || b.job.StandingOf("shower.depthMM") != job.Held {
		t.Errorf("%v, %q", b.job.Shower.DepthMM, b.job.StandingOf("shower.depthMM"))
	}
	b.typed(r, "99999", fyne.KeyReturn)
	if b.job.Shower.DepthMM != 950 || !strings.Contains(r.Says(), "99999") || r.Field.Text() != "950" {
		t.Errorf("%v, %q, shown %q", b.job.Shower.DepthMM, r.Says(), r.Field.Text())
	}
	b.typed(r, "900", fyne.KeyEscape)
	if n := len(b.previews); n == 0 || b.previews[n-1].Shower.DepthMM != 900 || b.job.Shower.DepthMM != 950 {
		t.Errorf("%d previews, depth %v", n, b.job.Shower.DepthMM)
	}
}

// The field that is asked shows what there is to know of it, and no other does.
func TestHelpOfTheFieldAsked(t *testing.T) {
	b := at(t, job.New())
	b.Open(job.StationShower)
	says := func(text string) (found bool) {
		roomtest.EachShown(b.Object(), func(o fyne.CanvasObject) {
			if t, ok := o.(*control.Text); ok && t.Text == text {
				found = true
			}
		})
		return found
	}
	const wide, deep = "Along the back wall.", "Away from the back wall."
	b.number(t, "shower.widthMM").Field.Focus()
	if !says(wide) || says(deep) {
		t.Errorf("of the width %v, of the depth %v", says(wide), says(deep))
	}
	b.number(t, "shower.depthMM").Field.Focus()
	if says(wide) || !says(deep) {
		t.Errorf("of the width %v, of the depth %v", says(wide), says(deep))
	}
}

// withoutSketch are the numbers among the first fields that no drawing shows, with the reason.
var withoutSketch = map[string]string{
	"water.showerFlowsLPS":           "a flow is no length",
	"waste.pump.flowLPS":             "a flow is no length",
	"laser.setUps.levelMM":           "mostly nought: the point is the datum itself",
	"waste.pump.dischargeMM":         "a pump's own sheet has its sizes",
	"waste.pump.dischargeNominalMM":  "a pump's own sheet has its sizes",
	"waste.pump.inletMM":             "a pump's own sheet has its sizes",
	"waste.pump.lengthMM":            "a pump's own sheet has its sizes",
	"waste.pump.widthMM":             "a pump's own sheet has its sizes",
	"waste.pump.heightMM":            "a pump's own sheet has its sizes",
	"tolerances.floorMM":             "a tolerance is of what is drawn elsewhere",
	"tolerances.baseMM":              "a tolerance is of what is drawn elsewhere",
	"tolerances.bedMM":               "a tolerance is of what is drawn elsewhere",
	"tolerances.formerMM":            "a tolerance is of what is drawn elsewhere",
	"tolerances.fallMM":              "a tolerance is of what is drawn elsewhere",
	"tolerances.outletMM":            "a tolerance is of what is drawn elsewhere",
	"tolerances.trapMM":              "a tolerance is of what is drawn elsewhere",
	"tolerances.pipeMM":              "a tolerance is of what is drawn elsewhere",
	"tolerances.exitMM":              "a tolerance is of what is drawn elsewhere",
	"tolerances.doorwayMM":           "a tolerance is of what is drawn elsewhere",
	"tolerances.groundMM":            "a tolerance is of what is drawn elsewhere",
	"tolerances.setUpMM":             "a tolerance is of what is drawn elsewhere",
	"layers.shower.tile.toleranceMM": "a tolerance is of what is drawn elsewhere", "layers.shower.bed.toleranceMM": "as before",
	"layers.shower.tanking.toleranceMM": "as before", "layers.room.tile.toleranceMM": "as before", "layers.room.bed.toleranceMM": "as before",
	"layers.room.tanking.toleranceMM": "as before", "layers.wall.tile.toleranceMM": "as before", "layers.wall.bed.toleranceMM": "as before",
	"layers.wall.tanking.toleranceMM": "as before",
}

// Every number among the first fields has a drawing with it lit, or a reason for none; every
// drawing is of an input, and its measure lies within it and has a length.
func TestFirstNumbersAreDrawn(t *testing.T) {
	known := map[string]bool{}
	look := func(key string, first bool) {
		known[key] = true
		_, drawn := sketch.Of(key)
		if _, none := withoutSketch[key]; first && drawn == none {
			t.Errorf("%s: drawn %v, with a reason not to be %v", key, drawn, none)
		}
	}
	for _, in := range job.Inputs() {
		switch {
		case in.Number != nil, in.Maybe != nil, in.Numbers != nil:
			look(in.Key, in.First)
		case in.Table != nil:
			for _, c := range in.Table.Columns {
				look(in.Key+c.Key, in.First && !c.Less)
			}
		case in.Things != nil:
			for _, e := range in.Things.Entries() {
				if e.Number != nil {
					look(in.Key+"."+e.Key, in.First && !e.Less)
				}
			}
		}
	}
	for _, key := range sketch.Keys() {
		s, ok := sketch.Of(key)
		if !known[key] || !ok {
			t.Errorf("a drawing of %s, which is no number", key)
		}
		if s.From == s.To {
			t.Errorf("the measure of %s has no length", key)
		}
		for _, p := range [...]float64{s.From.X() / sketch.WideMM, s.To.X() / sketch.WideMM, s.From.Y() / sketch.HighMM, s.To.Y() / sketch.HighMM} {
			if p < 0 || p > 1 {
				t.Errorf("the measure of %s lies beside its drawing", key)
			}
		}
	}
}

// Under a level that is measured as built stands what it should be, in the units of the job; under one that nothing is aimed at for, and
// one that is no level as built, stands nothing.
func TestBuiltLevelsSayWhatTheyShouldBe(t *testing.T) {
	for u, want := range map[unit.System]string{unit.Metric: "should be +81 mm", unit.Imperial: "should be +3 3/16\""} { // 81 mm are 3.19 in
		j := job.New()
		j.Units = u
		b := at(t, j)
		b.Tray.Open(job.StationSite)
		b.Show(j)
		if got := b.number(t, "asBuilt.baseTopMM").Field.Below; got != want {
			t.Errorf("%s: %q, want %q", u, got, want)
		}
		if got := b.number(t, "asBuilt.tileAtDrainMM").Field.Below; got != "" {
			t.Errorf("%s: %q", u, got)
		}
	}
}
