package app

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// withShelf gives the window a shelf in the place of its own, and a job with the usual
// parts of it.
func withShelf(t *testing.T, w *mainWindow, shelf part.Shelf, region string) {
	t.Helper()
	w.parts = shelf
	w.compose()
	w.window.SetContent(w.main)
	w.sides.openFields()
	if err := w.desk.Replace(edit.UsualParts(region, shelf).Apply(job.New()), ""); err != nil {
		t.Fatal(err)
	}
	until(t, "the job", func() bool {
		return w.change.Result.Stated.Region == region && w.change.Result.Stated.Parts != (job.Parts{})
	})
	w.showPanels()
}

// choiceField finds the list with a label.
func choiceField(t *testing.T, w *mainWindow, label message.ID) *choiceRow {
	t.Helper()
	for _, r := range w.inputs.rows {
		if c, ok := r.(*choiceRow); ok && c.choice.label == label {
			return c
		}
	}
	t.Fatalf("no list %s", label)
	return nil
}

// choose picks an option as a person does, by its words.
func choose(t *testing.T, w *mainWindow, label message.ID, words string) {
	t.Helper()
	c := choiceField(t, w, label)
	if !slices.Contains(c.sel.Options, words) {
		t.Fatalf("%s has no %q: %q", label, words, c.sel.Options)
	}
	c.sel.SetSelected(words)
}

// partRows are the lists of parts with what they offer for the job of the tests' shelf in
// the UK, and in the US, the one chosen first in each.
var partRows = []struct {
	label    message.ID
	uk, us   string
	chosenUK func(*job.Job) part.Part
}{
	{"parameter.parts.boards", "uk-boards", "us-boards", func(j *job.Job) part.Part { return *j.Parts.Boards }},
	{"parameter.parts.former", "former", "former", func(j *job.Job) part.Part { return *j.Parts.Former }},
	{"parameter.parts.drain", "uk-linear", "us-linear, us-linear-40", func(j *job.Job) part.Part { return *j.Parts.Drain }},
	{"parameter.parts.pipe", "uk-pipe", "us-pipe", func(j *job.Job) part.Part { return *j.Parts.Pipe }},
	{"parameter.parts.shower.tile", "tile-200, tile-450, tile-600", "tile-200, tile-600, tile-610",
		func(j *job.Job) part.Part { return *j.Parts.Shower.Tile }},
	{"parameter.parts.shower.tanking", "membrane", "membrane", func(j *job.Job) part.Part { return *j.Parts.Shower.Tanking }},
	{"parameter.parts.shower.bed", "uk-adhesive", "thin-set", func(j *job.Job) part.Part { return *j.Parts.Shower.Bed }},
	{"parameter.parts.room.tile", "tile-600, tile-200, tile-450", "tile-600, tile-200, tile-610",
		func(j *job.Job) part.Part { return *j.Parts.Room.Tile }},
	{"parameter.parts.room.tanking", "membrane", "membrane", func(j *job.Job) part.Part { return *j.Parts.Room.Tanking }},
	{"parameter.parts.room.bed", "uk-adhesive", "thin-set", func(j *job.Job) part.Part { return *j.Parts.Room.Bed }},
	{"parameter.parts.wall.tile", "tile-450, tile-200, tile-600", "tile-600, tile-200, tile-610",
		func(j *job.Job) part.Part { return *j.Parts.Wall.Tile }},
	{"parameter.parts.wall.tanking", "membrane", "membrane", func(j *job.Job) part.Part { return *j.Parts.Wall.Tanking }},
	{"parameter.parts.wall.bed", "uk-adhesive", "thin-set", func(j *job.Job) part.Part { return *j.Parts.Wall.Bed }},
}

// offered holds that a list of parts offers the ones of the given ids, with the first
// chosen, and last the numbers as entered.
func offered(t *testing.T, w *mainWindow, when string, label message.ID, want string) {
	t.Helper()
	c := choiceField(t, w, label)
	all := strings.Split(want, ", ")
	if c.sel.Selected != all[0] {
		t.Errorf("%s, %s: chosen %q, want %q", when, label, c.sel.Selected, all[0])
	}
	got := slices.Clone(c.sel.Options)
	slices.Sort(got)
	all = append(all, "As entered")
	slices.Sort(all)
	if !slices.Equal(got, all) || c.sel.Options[len(got)-1] != "As entered" {
		t.Errorf("%s, %s: offers %q, want %q", when, label, c.sel.Options, want)
	}
}

// Every list offers what its country sells, shows what is chosen, chooses it, and lets go
// of it with the numbers left as they are; the country brings its own.
func TestPartsAreOfferedAndChosen(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "UK")
	for _, r := range partRows {
		offered(t, w, "in the UK", r.label, r.uk)
	}
	for _, r := range partRows {
		before := w.desk.Job()
		choose(t, w, r.label, "As entered")
		after := w.desk.Job()
		if n := len(before.Chosen()) - len(after.Chosen()); n != 1 {
			t.Errorf("%s, as entered: %d parts less", r.label, n)
		}
		kept := after.Clone()
		kept.Parts = before.Parts
		if s := kept.Sold(); s.Any() {
			t.Errorf("%s, as entered: a number has changed", r.label)
		}
		if c := choiceField(t, w, r.label); c.sel.Selected != "As entered" {
			t.Errorf("%s shows %q", r.label, c.sel.Selected)
		}
		name, _, _ := strings.Cut(r.uk, ", ")
		choose(t, w, r.label, name)
		if j := w.desk.Job(); r.chosenUK(&j).Of().ID != name {
			t.Errorf("%s: %s is not chosen", r.label, name)
		}
		w.desk.Undo()
		w.desk.Undo()
	}
	until(t, "the parts again", func() bool { return w.change.Undo.IsZero() })
	w.jobPanel.country.sel.SetSelected("United States")
	until(t, "the US", func() bool { return w.change.Result.Stated.Region == "US" })
	w.showPanels()
	for _, r := range partRows {
		offered(t, w, "in the US", r.label, r.us)
	}
	if !w.jobPanel.came.Visible() || w.jobPanel.came.Text != "Country, with us-boards, us-linear, us-pipe and thin-set" {
		t.Errorf("of the parts that came it says %q", w.jobPanel.came.Text)
	}
	if w.desk.Job().Units != unit.Imperial {
		t.Error("a job of parts as sold stays in millimetres")
	}
	w.desk.Undo()
	until(t, "the UK again", func() bool { return w.change.Result.Stated.Region == "UK" })
	w.showPanels()
	for _, r := range partRows {
		offered(t, w, "back again", r.label, r.uk)
	}
	if w.jobPanel.came.Visible() || !w.change.Undo.IsZero() {
		t.Error("taken back, the parts that came are still told, or it took more than one step")
	}
}

// The drains offered follow the fall, and a change of fall brings one that goes with it.
func TestDrainsFollowTheFall(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "UK")
	choose(t, w, "parameter.former.fall", "Point drain")
	until(t, "the point", func() bool { return w.change.Result.Stated.Former.Fall == job.FallPoint })
	w.showPanels()
	c := choiceField(t, w, "parameter.parts.drain")
	if c.sel.Selected != "uk-point" || !slices.Equal(c.sel.Options, []string{"uk-point", "As entered"}) {
		t.Errorf("%q of %q", c.sel.Selected, c.sel.Options)
	}
}

// Timber is of the country, with what is chosen, and may be unknown.
func TestTimberOfTheCountry(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "US")
	w.desk.Do(edit.FloorKind(job.FloorTimber))
	w.desk.Do(edit.UseTimber(&w.parts.Timber[1]))
	w.showPanels()
	c := choiceField(t, w, "parameter.floor.joists.timber")
	if c.sel.Selected != "c24" || !slices.Equal(c.sel.Options, []string{"spf-2", "c24", "Not known"}) || !c.box.Visible() {
		t.Errorf("%q of %q, visible %v", c.sel.Selected, c.sel.Options, c.box.Visible())
	}
	choose(t, w, "parameter.floor.joists.timber", "Not known")
	if w.desk.Job().Floor.Joists.Timber != nil {
		t.Error("the class is still known")
	}
}

// The sizes are those of the system, as they are called; a number that fits none, or no
// system, is as entered.
func TestPipeSizes(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "UK")
	shows := func(when, selected string, options ...string) {
		t.Helper()
		w.showPanels()
		if c := choiceField(t, w, "parameter.parts.pipe.size"); c.sel.Selected != selected || !slices.Equal(c.sel.Options, options) {
			t.Errorf("%s: %q of %q", when, c.sel.Selected, c.sel.Options)
		}
	}
	shows("at first", "50 mm pipe", "40 mm pipe", "50 mm pipe", "As entered")
	choose(t, w, "parameter.parts.pipe.size", "40 mm pipe")
	if p := w.desk.Job().Waste; p.NominalMM != 40 || p.OutsideDiameterMM != 43 {
		t.Errorf("pipe of %v, %v outside", p.NominalMM, p.OutsideDiameterMM)
	}
	enter(w, numberField(t, w, "waste.nominalMM").entry, "45")
	shows("of 45", "As entered", "40 mm pipe", "50 mm pipe", "As entered")
	enter(w, numberField(t, w, "waste.nominalMM").entry, "50")
	shows("of 50 again", "50 mm pipe", "40 mm pipe", "50 mm pipe", "As entered")
	choose(t, w, "parameter.parts.pipe.size", "As entered")
	shows("without a system", "As entered", "As entered")
	if p := w.desk.Job(); p.Parts.Pipe != nil || p.Waste.NominalMM != 50 {
		t.Errorf("%+v of %v", p.Parts.Pipe, p.Waste.NominalMM)
	}
}

// A part that the shelf has no more is shown by its copy's name, and can be chosen again.
func TestPartThatIsNotOnTheShelf(t *testing.T) {
	w, _ := openWindow(t, Options{})
	shelf := demotest.Shelf()
	withShelf(t, w, shelf, "UK")
	gone := shelf.Boards[0]
	gone.ID, gone.Called = "gone", "Boards of my uncle's"
	w.desk.Do(edit.UseBoards(gone))
	w.showPanels()
	c := choiceField(t, w, "parameter.parts.boards")
	if c.sel.Selected != gone.Called || !slices.Equal(c.sel.Options, []string{"uk-boards", gone.Called, "As entered"}) {
		t.Errorf("%q of %q", c.sel.Selected, c.sel.Options)
	}
	choose(t, w, "parameter.parts.boards", gone.Called)
	if b := w.desk.Job().Parts.Boards; b == nil || b.ID != "gone" {
		t.Errorf("%+v", b)
	}
}

// When options change under a list it keeps the focus, and nothing is chosen by it; one
// chosen from a list that was opened before does nothing.
func TestOptionsChangeUnderTheFocus(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "UK")
	w.inputs.accordion.OpenAll()
	c := choiceField(t, w, "parameter.parts.boards")
	w.window.Canvas().Focus(c.sel)
	before := w.change.Edits
	w.desk.Do(edit.Region("US", "2026-11", w.parts))
	until(t, "the US", func() bool { return w.change.Result.Stated.Region == "US" })
	w.showPanels()
	if w.window.Canvas().Focused() != fyne.Focusable(c.sel) || c.sel.Selected != "us-boards" {
		t.Errorf("focus on %T, chosen %q", w.window.Canvas().Focused(), c.sel.Selected)
	}
	if n := w.change.Edits - before; n != 1 {
		t.Errorf("a change of country was %d edits", n)
	}
	c.sel.Selected = "uk-boards" // as the menu sets it
	c.sel.OnChanged("uk-boards")
	if b := w.desk.Job().Parts.Boards; b.ID != "us-boards" || c.sel.Selected != "us-boards" {
		t.Errorf("chosen from an old list: %s, shown %q", b.ID, c.sel.Selected)
	}
}

// Two parts of one name are told apart, and each is the one it says.
func TestPartsOfOneName(t *testing.T) {
	w, _ := openWindow(t, Options{})
	shelf := demotest.Shelf()
	other := shelf.Boards[0]
	other.ID, other.ThicknessesMM = "other", []float64{30}
	shelf.Boards = append(shelf.Boards, other)
	withShelf(t, w, shelf, "UK")
	choose(t, w, "parameter.parts.boards", "uk-boards (2)")
	if b := w.desk.Job().Parts.Boards; b.ID != "other" {
		t.Errorf("chosen %s", b.ID)
	}
}

// The user's own parts are offered before those that come with Underfall; a file of them
// that cannot be read is told of, and the others are there.
func TestOwnPartsAreOffered(t *testing.T) {
	own := demotest.Shelf()
	own = part.Shelf{Version: part.Version, Boards: own.Boards[:1]}
	folder := t.TempDir()
	if _, err := store.KeepParts(folder, part.Shelf{}, own); err != nil {
		t.Fatal(err)
	}
	w, _ := openWindow(t, Options{ConfigFolder: folder})
	w.begin(newJob(w.parts))
	until(t, "the job", func() bool { return w.change.Result.Stated.Parts.Boards != nil })
	w.showPanels()
	if c := choiceField(t, w, "parameter.parts.boards"); c.sel.Options[0] != "uk-boards" || c.sel.Selected != "uk-boards" || len(c.sel.Options) < 4 {
		t.Errorf("%q of %q", c.sel.Selected, c.sel.Options)
	}
	if err := os.WriteFile(filepath.Join(folder, "parts.json"), []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	w, log := openWindow(t, Options{ConfigFolder: folder})
	c := choiceField(t, w, "parameter.parts.boards")
	if !strings.Contains(w.status.Text, "parts.json") || !strings.Contains(log.String(), "own parts") || len(c.sel.Options) < 3 {
		t.Errorf("%q, %q", w.status.Text, c.sel.Options)
	}
}

// Walls to choose from are those of the room.
func TestWallsOfTheRoom(t *testing.T) {
	w, _ := openWindow(t, Options{})
	if c := choiceField(t, w, "parameter.shower.wall"); len(c.sel.Options) != 4 || c.sel.Selected != "C, ahead as you come in" || c.sel.Options[0] != "A, the wall you come in by" {
		t.Errorf("%q of %q", c.sel.Selected, c.sel.Options)
	}
}

// A number that differs from its part's is marked with what the part has and a way back,
// which is one step of the history.
func TestOwnNumbersAreMarked(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "UK")
	for _, p := range job.Parameters() {
		if f := numberField(t, w, p.Key); f.ownLine.box.Visible() {
			t.Errorf("%s is marked in a job as sold", p.Key)
		}
	}
	f := numberField(t, w, "drain.outletInvertDepthMM")
	enter(w, f.entry, "45")
	until(t, "the mark", func() bool { return f.ownLine.box.Visible() })
	if got, want := f.ownLine.said.Text, "• own; as sold 78 mm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	// It follows the units, and what the part has.
	w.desk.Do(edit.Of(message.Of("edit.units"), func(j *job.Job) { j.Units = unit.Imperial }))
	until(t, "inches", func() bool { return f.ownLine.said.Text == `• own; as sold 3 1/16"` })
	w.desk.Undo()
	buttonCalled(f.ownLine.box, "As sold").OnTapped()
	until(t, "the part's number", func() bool { return !f.ownLine.box.Visible() && f.entry.Text == "78" })
	if got := w.desk.Job().Drain.OutletInvertDepthMM; got != 78 {
		t.Errorf("the invert is %v", got)
	}
	if got := theme.Say(w.change.Undo, unit.Metric); got != "Drain and trap: Outlet below flange, as sold" {
		t.Errorf("undo names %q", got)
	}
	w.desk.Undo()
	until(t, "the own number again", func() bool { return f.ownLine.box.Visible() && f.entry.Text == "45" })
	// Without its part it is nobody's but the user's, and has nothing to go back to.
	choose(t, w, "parameter.parts.drain", "As entered")
	until(t, "no mark", func() bool { return !f.ownLine.box.Visible() })
}

// Thicknesses of board are read in any order, marked and taken back like numbers.
func TestBoardsAtHand(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "UK")
	l := listField(t, w, "Boards at hand")
	if l.entry.Text != "12, 20" || l.ownLine.box.Visible() {
		t.Errorf("%q, marked %v", l.entry.Text, l.ownLine.box.Visible())
	}
	enter(w, l.entry, "30, 12, 20, 12")
	if got := w.desk.Job().Base.BoardsMM; !slices.Equal(got, []float64{12, 20, 30}) || l.entry.Text != "12, 20, 30" {
		t.Errorf("%v, shown %q", got, l.entry.Text)
	}
	until(t, "the mark", func() bool { return l.ownLine.box.Visible() && l.ownLine.said.Text == "• own; not as sold" })
	buttonCalled(l.ownLine.box, "As sold").OnTapped()
	until(t, "the part's", func() bool { return l.entry.Text == "12, 20" && !l.ownLine.box.Visible() })
	enter(w, l.entry, "")
	if got := w.desk.Job().Base.BoardsMM; len(got) != 0 {
		t.Errorf("emptied, there are boards of %v", got)
	}
	for text, says := range map[string]string{
		"12, 301": "must be between 1 mm and 300 mm", "12, 0.9": "must be between 1 mm and 300 mm", "12, oak": "“oak”",
	} {
		enter(w, l.entry, text)
		if !l.message.Visible() || !strings.Contains(l.message.Text, says) {
			t.Errorf("%q says %q", text, l.message.Text)
		}
	}
}

// A new job has the parts of the country whose language is spoken.
func TestNewJobByLanguage(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for tag, want := range map[string]struct {
		region string
		units  unit.System
		pipe   string
	}{
		words.British:  {"UK", unit.Metric, "uk-pipe"},
		words.American: {"US", unit.Imperial, "us-pipe"},
		words.MadeUp:   {"UK", unit.Metric, "uk-pipe"},
	} {
		w.speak(tag)
		j := newJob(demotest.Shelf())
		if j.Region != want.region || j.Units != want.units || j.Parts.Pipe.ID != want.pipe || j.Base.Height != job.HeightSafe {
			t.Errorf("%s: %s, %s, %s, %s", tag, j.Region, j.Units, j.Parts.Pipe.ID, j.Base.Height)
		}
	}
}

// The window opens with a job in the units of the language that is spoken.
func TestFirstJobByLanguage(t *testing.T) {
	for tag, want := range map[string]unit.System{words.British: unit.Metric, words.American: unit.Imperial} {
		t.Setenv("UNDERFALL_LANGUAGE", tag)
		w, _ := openWindow(t, Options{})
		if got := w.desk.Job(); got.Units != want || w.desk.Unsaved() || len(got.Chosen()) == 0 {
			t.Errorf("%s: %s, unsaved %v, %d parts", tag, got.Units, w.desk.Unsaved(), len(got.Chosen()))
		}
	}
}

// A new job can be built in every country that has parts, as it begins: of every kind
// there is one, nothing is anybody's own, and nothing stops it.
func TestNewJobsCanBeBuilt(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for region, pack := range demotest.Packs(t) {
		if region == rule.CommonRegion || len(part.SoldIn(shelf.Pipes, region)) == 0 {
			continue
		}
		tried++
		j := edit.Start(region, shelf)
		want := 4 + 9
		if j.Floor.Kind == job.FloorTimber {
			want++ // the class of its joists
		}
		if n := len(j.Chosen()); n != want {
			t.Errorf("%s: %d parts, want %d", region, n, want)
		}
		if s := j.Sold(); s.Any() {
			t.Errorf("%s: something is not as sold", region)
		}
		r := geometry.Evaluate(j, pack)
		if len(r.Problems) > 0 {
			t.Errorf("%s: %v", region, r.Problems)
		}
		for _, f := range r.Findings {
			if f.Rule.Severity == rule.Stop {
				t.Errorf("%s: %s of %s: %v", region, f.Rule.ID, f.Measurement.Subject, f.Measurement.Value)
			}
		}
	}
	if tried == 0 {
		t.Fatal("no country has pipe: the shelf is empty")
	}
}

// Nor does a change of country stop a job of parts as sold, from wherever to wherever.
func TestCountriesCanBeChanged(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	packs, tried := demotest.Packs(t), 0
	for from := range packs {
		for to, pack := range packs {
			if from == rule.CommonRegion || to == rule.CommonRegion {
				continue
			}
			tried++
			j := edit.Region(to, "2026-11", shelf).Apply(edit.UsualParts(from, shelf).Apply(job.New()))
			for _, p := range j.Chosen() {
				if !p.Of().SoldIn(to) {
					t.Errorf("from %s to %s: %s %s", from, to, p.Kind(), p.Of().ID)
				}
			}
			r := geometry.Evaluate(j, pack)
			if len(r.Problems) > 0 {
				t.Errorf("from %s to %s: %v", from, to, r.Problems)
			}
			for _, f := range r.Findings {
				if f.Rule.Severity == rule.Stop {
					t.Errorf("from %s to %s: %s of %s: %v", from, to, f.Rule.ID, f.Measurement.Subject, f.Measurement.Value)
				}
			}
		}
	}
	if tried < 36 {
		t.Errorf("%d pairs", tried)
	}
}
