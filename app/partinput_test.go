package app

import (
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

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
	if err := w.desk.Replace(edit.UsualParts(region, shelf).Apply(job.New())); err != nil {
		t.Fatal(err)
	}
	until(t, "the job", func() bool {
		return w.change.Result.Stated.Region == region && w.change.Result.Stated.Parts != (job.Parts{})
	})
	w.showPanels()
}

// partRows are the lists of parts with what they offer for the job of the tests' shelf in
// the UK, and in the US, the one chosen first in each.
var partRows = []struct {
	label    string
	uk, us   string
	chosenUK func(*job.Job) part.Part
}{
	{"parts.boards", "uk-boards", "us-boards", func(j *job.Job) part.Part { return *j.Parts.Boards }},
	{"parts.former", "former", "former", func(j *job.Job) part.Part { return *j.Parts.Former }},
	{"parts.drain", "uk-linear", "us-linear, us-linear-40", func(j *job.Job) part.Part { return *j.Parts.Drain }},
	{"parts.pipe", "uk-pipe", "us-pipe", func(j *job.Job) part.Part { return *j.Parts.Pipe }},
	{"parts.shower.tile", "tile-200, tile-450, tile-600", "tile-200, tile-600, tile-610",
		func(j *job.Job) part.Part { return *j.Parts.Shower.Tile }},
	{"parts.shower.tanking", "membrane", "membrane", func(j *job.Job) part.Part { return *j.Parts.Shower.Tanking }},
	{"parts.shower.bed", "uk-adhesive", "thin-set", func(j *job.Job) part.Part { return *j.Parts.Shower.Bed }},
	{"parts.room.tile", "tile-600, tile-200, tile-450", "tile-600, tile-200, tile-610",
		func(j *job.Job) part.Part { return *j.Parts.Room.Tile }},
	{"parts.room.tanking", "membrane", "membrane", func(j *job.Job) part.Part { return *j.Parts.Room.Tanking }},
	{"parts.room.bed", "uk-adhesive", "thin-set", func(j *job.Job) part.Part { return *j.Parts.Room.Bed }},
	{"parts.wall.tile", "tile-450, tile-200, tile-600", "tile-600, tile-200, tile-610",
		func(j *job.Job) part.Part { return *j.Parts.Wall.Tile }},
	{"parts.wall.tanking", "membrane", "membrane", func(j *job.Job) part.Part { return *j.Parts.Wall.Tanking }},
	{"parts.wall.bed", "uk-adhesive", "thin-set", func(j *job.Job) part.Part { return *j.Parts.Wall.Bed }},
}

// offered holds that a list of parts offers the ones of the given ids, with the first
// chosen, and last the numbers as entered.
func offered(t *testing.T, w *mainWindow, when, label, want string) {
	t.Helper()
	chosen, options := shownOf(choiceField(t, w, label))
	all := strings.Split(want, ", ")
	if chosen != all[0] {
		t.Errorf("%s, %s: chosen %q, want %q", when, label, chosen, all[0])
	}
	got := slices.Clone(options)
	slices.Sort(got)
	all = append(all, "As entered")
	slices.Sort(all)
	if !slices.Equal(got, all) || options[len(got)-1] != "As entered" {
		t.Errorf("%s, %s: offers %q, want %q", when, label, options, want)
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
		if chosen, _ := shownOf(choiceField(t, w, r.label)); chosen != "As entered" {
			t.Errorf("%s shows %q", r.label, chosen)
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
	w.jobPanel.country.Choose("US")
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
	choose(t, w, "former.fall", "Point drain")
	until(t, "the point", func() bool { return w.change.Result.Stated.Former.Fall == job.FallPoint })
	w.showPanels()
	c := choiceField(t, w, "parts.drain")
	chosen, options := shownOf(c)
	if chosen != "uk-point" || !slices.Equal(options, []string{"uk-point", "As entered"}) {
		t.Errorf("%q of %q", chosen, options)
	}
}

// Timber is of the country, with what is chosen, and may be unknown.
func TestTimberOfTheCountry(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "US")
	w.desk.Do(edit.FloorKind(job.FloorTimber))
	w.desk.Do(edit.UseTimber(&w.parts.Timber[1]))
	w.showPanels()
	c := choiceField(t, w, "floor.joists.timber")
	chosen, options := shownOf(c)
	if chosen != "c24" || !slices.Equal(options, []string{"spf-2", "c24", "Not known"}) || !c.There() {
		t.Errorf("%q of %q, visible %v", chosen, options, c.There())
	}
	choose(t, w, "floor.joists.timber", "Not known")
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
		until(t, "the result "+when, func() bool {
			return !w.change.Preview && reflect.DeepEqual(w.change.Result.Stated, w.desk.Job())
		})
		w.showPanels()
		if chosen, offered := shownOf(choiceField(t, w, "parts.pipe.size")); chosen != selected || !slices.Equal(offered, options) {
			t.Errorf("%s: %q of %q", when, chosen, offered)
		}
	}
	shows("at first", "50 mm pipe", "40 mm pipe", "50 mm pipe", "As entered")
	choose(t, w, "parts.pipe.size", "40 mm pipe")
	if p := w.desk.Job().Waste; p.NominalMM != 40 || p.OutsideDiameterMM != 43 {
		t.Errorf("pipe of %v, %v outside", p.NominalMM, p.OutsideDiameterMM)
	}
	enter(w, numberField(t, w, "waste.nominalMM"), "45")
	shows("of 45", "As entered", "40 mm pipe", "50 mm pipe", "As entered")
	enter(w, numberField(t, w, "waste.nominalMM"), "50")
	shows("of 50 again", "50 mm pipe", "40 mm pipe", "50 mm pipe", "As entered")
	choose(t, w, "parts.pipe.size", "As entered")
	if choiceField(t, w, "parts.pipe.size").There() {
		t.Error("without a system its sizes are asked for")
	}
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
	c := choiceField(t, w, "parts.boards")
	chosen, options := shownOf(c)
	if chosen != gone.Called || !slices.Equal(options, []string{"uk-boards", gone.Called, "As entered"}) {
		t.Errorf("%q of %q", chosen, options)
	}
	choose(t, w, "parts.boards", gone.Called)
	if b := w.desk.Job().Parts.Boards; b == nil || b.ID != "gone" {
		t.Errorf("%+v", b)
	}
}

// When options change under a list it keeps the focus, and nothing is chosen by it; one
// chosen from a list that was opened before does nothing.
func TestOptionsChangeUnderTheFocus(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "UK")
	c := choiceField(t, w, "parts.boards")
	w.sides.openFields()
	_, focus := w.tray.Reveal("parts.boards")
	focus()
	has := w.window.Canvas().Focused()
	before := w.change.Edits
	w.desk.Do(edit.Region("US", "2026-11", w.parts))
	until(t, "the US", func() bool { return w.change.Result.Stated.Region == "US" })
	w.showPanels()
	chosen, _ := shownOf(c)
	if !focusIn(w, c) || w.window.Canvas().Focused() != has || chosen != "us-boards" {
		t.Errorf("focus on %T, chosen %q", w.window.Canvas().Focused(), chosen)
	}
	if n := w.change.Edits - before; n != 1 {
		t.Errorf("a change of country was %d edits", n)
	}
	c.Choose("uk-boards")
	chosen, _ = shownOf(c)
	if b := w.desk.Job().Parts.Boards; b.ID != "us-boards" || chosen != "us-boards" {
		t.Errorf("chosen from an old list: %s, shown %q", b.ID, chosen)
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
	choose(t, w, "parts.boards", "uk-boards (2)")
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
	if chosen, options := shownOf(choiceField(t, w, "parts.boards")); options[0] != "uk-boards" || chosen != "uk-boards" || len(options) < 4 {
		t.Errorf("%q of %q", chosen, options)
	}
	if err := os.WriteFile(filepath.Join(folder, "parts.json"), []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	w, log := openWindow(t, Options{ConfigFolder: folder})
	_, options := shownOf(choiceField(t, w, "parts.boards"))
	if !strings.Contains(w.status.Text, "parts.json") || !strings.Contains(log.String(), "own parts") || len(options) < 3 {
		t.Errorf("%q, %q", w.status.Text, options)
	}
}

// Walls to choose from are those of the room.
func TestWallsOfTheRoom(t *testing.T) {
	w, _ := openWindow(t, Options{})
	if chosen, options := shownOf(choiceField(t, w, "shower.wall")); len(options) != 4 || chosen != "C, ahead as you come in" || options[0] != "A, the wall you come in by" {
		t.Errorf("%q of %q", chosen, options)
	}
}

// A number that differs from its part's is marked with what the part has and a way back,
// which is one step of the history.
func TestOwnNumbersAreMarked(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "UK")
	for _, p := range job.Parameters() {
		if f := numberField(t, w, p.Key); f.OwnText() != "" {
			t.Errorf("%s is marked in a job as sold", p.Key)
		}
	}
	f := numberField(t, w, "drain.outletInvertDepthMM")
	enter(w, f, "45")
	until(t, "the mark", func() bool { return f.OwnText() != "" })
	if got, want := f.OwnText(), "• own; as sold 78 mm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	// It follows the units, and what the part has.
	w.desk.Do(edit.Of(message.Of("edit.units"), func(j *job.Job) { j.Units = unit.Imperial }))
	until(t, "inches", func() bool { return f.OwnText() == `• own; as sold 3 1/16"` })
	w.desk.Undo()
	f.TakeAsSold()
	until(t, "the part's number", func() bool { return f.OwnText() == "" && f.Field.Text() == "78" })
	if got := w.desk.Job().Drain.OutletInvertDepthMM; got != 78 {
		t.Errorf("the invert is %v", got)
	}
	if got := theme.Say(w.change.Undo, unit.Metric); got != "Outlet below flange (Drain and trap), as sold" {
		t.Errorf("undo names %q", got)
	}
	w.desk.Undo()
	until(t, "the own number again", func() bool { return f.OwnText() != "" && f.Field.Text() == "45" })
	// Without its part it is nobody's but the user's, and has nothing to go back to.
	choose(t, w, "parts.drain", "As entered")
	until(t, "no mark", func() bool { return f.OwnText() == "" })
}

// Thicknesses of board are read in any order, marked and taken back like numbers.
func TestBoardsAtHand(t *testing.T) {
	w, _ := openWindow(t, Options{})
	withShelf(t, w, demotest.Shelf(), "UK")
	l := listField(t, w, "base.boardsMM")
	if l.Entry.Text != "12, 20" || l.OwnText() != "" {
		t.Errorf("%q, marked %v", l.Entry.Text, l.OwnText() != "")
	}
	enterList(w, l, "30, 12, 20, 12")
	if got := w.desk.Job().Base.BoardsMM; !slices.Equal(got, []float64{12, 20, 30}) || l.Entry.Text != "12, 20, 30" {
		t.Errorf("%v, shown %q", got, l.Entry.Text)
	}
	until(t, "the mark", func() bool { return l.OwnText() != "" && l.OwnText() == "• own; not as sold" })
	l.TakeAsSold()
	until(t, "the part's", func() bool { return l.Entry.Text == "12, 20" && l.OwnText() == "" })
	enterList(w, l, "")
	if got := w.desk.Job().Base.BoardsMM; len(got) != 0 {
		t.Errorf("emptied, there are boards of %v", got)
	}
	for text, says := range map[string]string{
		"12, 301": "must be between 1 mm and 300 mm", "12, 0.9": "must be between 1 mm and 300 mm", "12, oak": "“oak”",
	} {
		enterList(w, l, text)
		if !strings.Contains(l.Says(), says) {
			t.Errorf("%q says %q", text, l.Says())
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
