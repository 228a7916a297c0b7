package tray_test

import (
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/tray"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// table is the editor of a table.
func (b *bench) table(t *testing.T, key string) *tray.TableRow {
	t.Helper()
	r, ok := b.Row(key).(*tray.TableRow)
	if !ok {
		t.Fatalf("no table for %s", key)
	}
	return r
}

// clipboard is one with a text in it.
type clipboard string

func (c clipboard) Content() string   { return string(c) }
func (c clipboard) SetContent(string) {}

// pasted pastes a text into a field.
func (b *bench) pasted(r *tray.NumberRow, text string) {
	r.Field.Focus()
	b.window.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutPaste{Clipboard: clipboard(text)})
}

// Each figure of a row is a field of its own, with its own refusal, and typed it is held as the file has it:
// a reading by itself, corners all together.
func TestRowsOfFigures(t *testing.T) {
	j := job.New()
	j.SpotLevels = []job.SpotLevel{{At: plan.Point{300, 400}, LevelMM: 2.5, ToleranceMM: 1}, {At: plan.Point{900, 400}, LevelMM: 3, ToleranceMM: 1}}
	b := at(t, j)
	r := b.table(t, job.SpotLevelsKey)
	level := r.Cell(1, 2)
	b.typed(level, "600", fyne.KeyReturn)
	if !strings.Contains(level.Says(), "600") || b.job.SpotLevels[1].LevelMM != 3 || r.Cell(0, 2).Says() != "" {
		t.Errorf("%v, it says %q", b.job.SpotLevels, level.Says())
	}
	b.typed(level, "-4.5", fyne.KeyReturn)
	if b.job.SpotLevels[1].LevelMM != -4.5 || level.Says() != "" {
		t.Errorf("%v, it says %q", b.job.SpotLevels, level.Says())
	}
	if b.job.StandingOf("spotLevels[1].levelMM") != job.Held || b.job.StandingOf("spotLevels[0].levelMM") != job.Stated {
		t.Errorf("standings %v", b.job.Standings)
	}
	corners := b.table(t, job.OutlineKey)
	b.typed(corners.Cell(2, 1), "=2000-50", fyne.KeyReturn)
	if b.job.Room.Outline[2] != (plan.Point{2400, 1950}) || b.job.StandingOf(job.OutlineKey) != job.Held {
		t.Errorf("corners %v, %v", b.job.Room.Outline, b.job.Standings)
	}
	// A corner that would lie on another is refused in its own field.
	b.typed(corners.Cell(2, 1), "0", fyne.KeyReturn)
	if b.job.Room.Outline[2] != (plan.Point{2400, 1950}) || corners.Cell(2, 1).Says() == "" {
		t.Errorf("corners %v, it says %q", b.job.Room.Outline, corners.Cell(2, 1).Says())
	}
}

// Enter goes from figure to figure, past the last of a row to the next and past the last of all to the
// button that adds one; what is added has the keys, and what takes the place of what is taken away.
func TestRowsByKeys(t *testing.T) {
	j := job.New()
	j.SpotLevels = nil
	b := at(t, j)
	r := b.table(t, job.SpotLevelsKey)
	press := func(o fyne.Focusable, key fyne.KeyName) { o.TypedKey(&fyne.KeyEvent{Name: key}) }
	focused := func() fyne.Focusable { return b.window.Canvas().Focused() }
	has := func(want *tray.NumberRow) bool {
		before := focused()
		want.Field.Focus()
		return focused() == before
	}
	b.window.Canvas().Focus(r.Add)
	press(r.Add, fyne.KeyReturn)
	if len(b.job.SpotLevels) != 1 || !has(r.Cell(0, 0)) {
		t.Fatalf("added: %v", b.job.SpotLevels)
	}
	if s := b.job.StandingOf("spotLevels[0].levelMM"); s != job.Assumed {
		t.Errorf("a level nobody has read is %q", s)
	}
	for column, typed := range []string{"300", "400", "2"} {
		b.typed(r.Cell(0, column), typed, fyne.KeyReturn)
	}
	press(focused(), fyne.KeyReturn) // how far it may be off, which Row has shown with the less used
	if focused() != fyne.Focusable(r.Add) {
		t.Errorf("past the last figure the keys go to %T", focused())
	}
	press(focused(), fyne.KeyReturn)
	if want := (job.SpotLevel{At: plan.Point{300, 400}, LevelMM: 2, ToleranceMM: job.UsualReadingMM}); len(b.job.SpotLevels) != 2 ||
		b.job.SpotLevels[0] != want || b.job.StandingOf("spotLevels[0].levelMM") != job.Held {
		t.Errorf("readings %v, %v", b.job.SpotLevels, b.job.Standings)
	}
	second := b.job.SpotLevels[1]
	press(r.Remove(0), fyne.KeySpace)
	if len(b.job.SpotLevels) != 1 || b.job.SpotLevels[0] != second || !has(r.Cell(0, 0)) || b.job.StandingOf("spotLevels[0].levelMM") != job.Assumed {
		t.Errorf("taken away: %v, %v", b.job.SpotLevels, b.job.Standings)
	}
	press(r.Remove(0), fyne.KeySpace)
	if len(b.job.SpotLevels) != 0 || focused() != fyne.Focusable(r.Add) {
		t.Errorf("the last taken away: %v, the keys at %T", b.job.SpotLevels, focused())
	}
	corners := b.table(t, job.OutlineKey)
	press(corners.Add, fyne.KeySpace)
	if n := len(b.job.Room.Outline); n != 5 || len(b.job.Room.Walls) != 5 {
		t.Errorf("%d corners, %d walls", n, len(b.job.Room.Walls))
	}
	// A room needs three corners.
	for range 5 {
		if p := corners.Remove(0); p.Visible() {
			press(p, fyne.KeySpace)
		}
	}
	if n := len(b.job.Room.Outline); n < 3 {
		t.Errorf("%d corners", n)
	}
}

// A table that is pasted is spread over the rows from the figure on, or from its row's first where it is too
// wide; what it does not say of a row that is there stays. It is one edit.
func TestPastedTables(t *testing.T) {
	one := []job.SpotLevel{{At: plan.Point{100, 200}, LevelMM: 7, ToleranceMM: 0.5}}
	for name, c := range map[string]struct {
		row, column int
		text        string
		want        [][]float64
	}{
		"commas":        {0, 0, "300, 400, 2.5, 1\n900, 400, 3", [][]float64{{300, 400, 2.5, 1}, {900, 400, 3, 1}}},
		"tabs":          {0, 0, "x\ty\tlevel\r\n300\t400\t-2.5\r\n900\t400\t3\r\n", [][]float64{{300, 400, -2.5, 0.5}, {900, 400, 3, 1}}},
		"semicolons":    {0, 0, "1 200; 2 m 30; =3-0,5", [][]float64{{1200, 2300, 2.5, 0.5}}},
		"decimal comma": {0, 0, "300,5; 400; 2,5; 1", [][]float64{{300.5, 400, 2.5, 1}}},
		"plus or minus": {0, 0, "300, 400, 2, ±0.3", [][]float64{{300, 400, 2, 0.3}}},
		"too wide":      {0, 2, "300, 400, 2", [][]float64{{300, 400, 2, 0.5}}},
		"two figures":   {0, 2, "2; 0.3", [][]float64{{100, 200, 2, 0.3}}},
	} {
		j := job.New()
		j.SpotLevels = one
		b := at(t, j)
		r := b.table(t, job.SpotLevelsKey)
		b.pasted(r.Cell(c.row, c.column), c.text)
		if got := r.In.Table.Rows(&b.job); !reflect.DeepEqual(got, c.want) || r.Says() != "" {
			t.Errorf("%s: %v, want %v; it says %q", name, got, c.want, r.Says())
		}
	}
}

// Each column is read as what it is: water over the cover in millimetres, what the trap carries as a flow.
func TestPastedFlows(t *testing.T) {
	b := at(t, job.New())
	r := b.table(t, job.CapacityCurveKey)
	r.Add.OnPressed()
	b.pasted(r.Cell(0, 0), "12,5; 24 l/min\n15; 30")
	if got, want := r.In.Table.Rows(&b.job), [][]float64{{12.5, 0.4}, {15, 0.5}}; !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v; it says %q", got, want, r.Says())
	}
}

// Readings down from a laser are rows as well: without a set-up the first sets the laser up, and what is pasted
// is read from it. 1000 over the datum, what is read at 997 lies 3 higher.
func TestRowsOfReadingsDown(t *testing.T) {
	b := at(t, job.New())
	r := b.table(t, job.ReadingsKey)
	r.Add.OnPressed()
	b.pasted(r.Cell(0, 0), "300\t400\t1000\n900\t400\t997\n")
	if got := b.job.SpotLevels; len(b.job.Laser.Readings) != 2 || len(got) != 2 || got[0].LevelMM != 0 || got[1].LevelMM != 3 || r.Says() != "" {
		t.Fatalf("%+v, levels %+v, it says %q", b.job.Laser, got, r.Says())
	}
	b.typed(r.Cell(1, 2), "995", fyne.KeyReturn)
	if got := b.job.SpotLevels[1].LevelMM; got != 5 || b.job.StandingOf("laser.readings[1].downMM") != job.Held {
		t.Errorf("level %v, %v", got, b.job.Standings)
	}
	r.Remove(0).OnPressed()
	if got := b.job.SpotLevels; len(got) != 1 || got[0].LevelMM != 5 || b.job.StandingOf("laser.readings[0].downMM") != job.Held {
		t.Errorf("levels %+v, %v", got, b.job.Standings)
	}
}

// Two readings of one point that differ by more than 2 are told under the rows, until one is the other's.
func TestReadingsThatDisagree(t *testing.T) {
	b := at(t, job.New())
	r := b.table(t, job.ReadingsKey)
	r.Add.OnPressed()
	b.pasted(r.Cell(0, 0), "300\t400\t1000\n300\t400\t996\n")
	if got, want := r.Told(), "Readings 1 and 2 are of one point and differ by 4 mm: both are kept. Read it again, and take the wrong one away"; got != want {
		t.Errorf("told %q", got)
	}
	b.typed(r.Cell(1, 2), "999", fyne.KeyReturn)
	if got := r.Told(); got != "" {
		t.Errorf("1 apart it is told %q", got)
	}
}

// A column of figures goes down the rows there are.
func TestPastedColumn(t *testing.T) {
	j := job.New()
	j.SpotLevels = []job.SpotLevel{{At: plan.Point{100, 200}, ToleranceMM: 1}, {At: plan.Point{900, 200}, ToleranceMM: 1}}
	b := at(t, j)
	r := b.table(t, job.SpotLevelsKey)
	b.pasted(r.Cell(0, 2), "2\n-3")
	if s := b.job.SpotLevels; s[0].LevelMM != 2 || s[1].LevelMM != -3 {
		t.Errorf("%v", s)
	}
	b.pasted(r.Cell(0, 2), "2\n-3\n4")
	if s := b.job.SpotLevels; len(s) != 2 || !strings.Contains(r.Says(), "line 3") {
		t.Errorf("%v, it says %q", s, r.Says())
	}
}

// What cannot be read of a table says which line, and all stays as it is; a single number goes into its
// field.
func TestPastedIsRefused(t *testing.T) {
	for text, says := range map[string]string{
		"300, 400, 2\n300, 400":    "line 2: needs 3 to 4 numbers, has 2",
		"300, 400, 2\n\n300, x, 2": "line 3: number 2, “x”",
		"300, 400, 600":            "line 1: number 3, “600”: this is 600 mm, but must be between -500 mm and 500 mm",
		"300, 400, 2, 101":         "line 1: number 4, “101”",
		"1,200; 400; 3":            "line 1: “1,200; 400; 3” can be “1200 mm; 400 mm; 3 mm” or “1.2 mm; 400 mm; 3 mm”",
		"300, , 400, 2":            "line 1: a number is missing before “400”",
		"1, 2, 3, 4, 5":            "line 1",
	} {
		j := job.New()
		j.SpotLevels = []job.SpotLevel{{At: plan.Point{100, 200}, LevelMM: 7, ToleranceMM: 0.5}}
		b := at(t, j)
		r := b.table(t, job.SpotLevelsKey)
		b.pasted(r.Cell(0, 0), text)
		if !strings.Contains(r.Says(), says) || !reflect.DeepEqual(b.job, j) || r.Cell(0, 0).Field.Text() != "100" {
			t.Errorf("%q: it says %q, want %q; %v", text, r.Says(), says, b.job.SpotLevels)
		}
	}
	b := at(t, job.New())
	r := b.table(t, job.OutlineKey)
	b.pasted(r.Cell(1, 0), "2500")
	if r.Cell(1, 0).Field.Text() != "2500" || r.Says() != "" {
		t.Errorf("a single number: %q, it says %q", r.Cell(1, 0).Field.Text(), r.Says())
	}
	// Corners that cross are refused as a whole.
	b.pasted(r.Cell(0, 0), "0, 0\n2000, 2000\n2000, 0\n0, 2000")
	if r.Says() == "" || b.job.Room.Outline[2] != (plan.Point{2400, 1900}) {
		t.Errorf("corners that cross: %v, it says %q", b.job.Room.Outline, r.Says())
	}
}

// A path of the file leads to the field of its figure.
func TestPathsLeadIntoTables(t *testing.T) {
	j := job.New()
	j.SpotLevels = []job.SpotLevel{{At: plan.Point{300, 400}, ToleranceMM: 1}, {At: plan.Point{900, 400}, ToleranceMM: 1}}
	b := at(t, j)
	for path, want := range map[string][2]int{"spotLevels[1].levelMM": {1, 2}, "spotLevels[1]": {1, 0}, "spotLevels[0].at": {0, 0}, "room.outline[2][1]": {2, 1}, "room.outline": {0, 0}} {
		o, focus := b.Reveal(path)
		if o == nil || focus == nil {
			t.Errorf("%s leads nowhere", path)
			continue
		}
		focus()
		got := b.window.Canvas().Focused()
		key, _, _ := strings.Cut(path, "[")
		b.table(t, key).Cell(want[0], want[1]).Field.Focus()
		if b.window.Canvas().Focused() != got {
			t.Errorf("%s leads to another field", path)
		}
	}
}
