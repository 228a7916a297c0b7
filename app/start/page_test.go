package start_test

import (
	"context"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/start"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/progress"
	"underfall/geometry/question"
	"underfall/geometry/unit"
	"underfall/geometry/unknown"
)

// inApp has a test's widgets in the program's own theme and language.
func inApp(t *testing.T, dark bool, language string) {
	t.Helper()
	a := test.NewTempApp(t)
	roomtest.Wake()
	books, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	a.Settings().SetTheme(theme.New(dark, books.Book(language, unit.Metric, nil)))
}

// opened is a page in a window of a size.
func opened(t *testing.T, o fyne.CanvasObject, w, h float32) fyne.Window {
	t.Helper()
	win := test.NewTempWindow(t, o)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}

// asked is what a page asked for.
type asked struct {
	job                    *job.Job
	kept                   *question.Sheet
	opened, removed, seeks []string
	all                    int
	begun                  []question.Sheet
	answers                int
}

// practices are those of the countries, each worked out once.
func practices(t *testing.T) func(region string) question.Practice {
	t.Helper()
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]question.Practice{}
	return func(region string) question.Practice {
		if _, ok := all[region]; !ok {
			all[region] = question.PracticeIn(region, shelf)
		}
		return all[region]
	}
}

// aSheet is the page of a new job in a country. Its answers are worked out at once, or made up where
// they are only to be looked at.
func aSheet(t *testing.T, region string, madeUp bool) (*start.Sheet, *asked) {
	t.Helper()
	return sheetWith(t, region, madeUp, func(s question.Sheet) question.Sheet { return s })
}

// sheetWith is one that some answers were given of before.
func sheetWith(t *testing.T, region string, madeUp bool, with func(question.Sheet) question.Sheet) (*start.Sheet, *asked) {
	t.Helper()
	in := practices(t)
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	var a asked
	return start.NewSheet(start.SheetOptions{Sheet: with(in(region).Begin()), PracticeIn: in, Keys: control.NewKeys(),
		Regions: []start.Region{{"UK", "United Kingdom"}, {"US", "United States"}},
		Answer: func(p question.Practice, s question.Sheet, show func(start.First, bool)) {
			a.answers++
			if madeUp {
				show(someAnswer(), true)
				return
			}
			show(start.FirstAnswer(context.Background(), p, packs[s.Region], s))
		},
		Work: func(j job.Job) { a.job = &j }, Back: func() {},
		Kept: func(s question.Sheet) { a.kept = &s }, Answered: func(question.Sheet) {}}), &a
}

// someAnswer is a made-up first answer with three cases.
func someAnswer() start.First {
	step := func(mm float64, kind geometry.StepKind) geometry.Step {
		return geometry.Step{MM: mm, Kind: kind, Rise: message.Rise{ToMM: mm}}
	}
	f := start.First{Answer: geometry.Answer{Standing: geometry.Sound},
		Look: &unknown.Look{Of: unknown.Unknown{Values: []unknown.Value{{ID: "along"}, {ID: "across"}}},
			Do: message.Of("look.joists-run"), Settles: message.Of("look.settles-all", message.MM("mm", 99)),
			Cautions: []message.Message{message.Of("look.caution-services")}},
		Assumed: []string{"room.outline", "floor.joists.depthMM"}, Job: job.New(),
		Run: []plan.Point{{645, 1832}, {0, 1832}}, Drain: plan.Ring{{300, 1817}, {1100, 1817}, {1100, 1887}, {300, 1887}}}
	for _, c := range []start.Case{
		{Title: message.Of("unknown.joists-along"), How: message.Of("start.how.let-in"),
			Standing: geometry.Sound, Step: step(17, geometry.Lip), Chance: 95,
			Build: start.Build{Floor: start.UnderTimber, BaseMM: -80, TopMM: 30, RoomMM: 13}},
		{Title: message.Of("unknown.joists-across"), How: message.Of("start.how.deck"),
			Standing: geometry.Tight, Step: step(112, geometry.AStep), Chance: 80,
			Build: start.Build{Floor: start.UnderTimber, TopMM: 125, RoomMM: 13}},
		{Title: message.Of("unknown.concrete"), How: message.Of("start.how.slab"),
			Standing: geometry.Stops, Step: step(116, geometry.AStep), Chance: 96,
			Build: start.Build{TopMM: 129, RoomMM: 13}},
	} {
		c.HasStep, c.HasBuild = true, true
		f.Cases = append(f.Cases, c)
	}
	return f
}

// aFront is the start page with some jobs.
func aFront(t *testing.T, region string) (*start.Front, *asked) {
	return frontWith(t, region, func(*start.FrontOptions) {})
}

// frontWith is that page with something changed.
func frontWith(t *testing.T, region string, change func(*start.FrontOptions)) (*start.Front, *asked) {
	t.Helper()
	var a asked
	p := practices(t)(region)
	room := []plan.Point{{2400, 0}, {0, 0}, {0, 1900}, {2400, 1900}}
	summary := func(standing geometry.Standing, mm float64, next message.ID) *progress.Summary {
		shower := []plan.Point{{0, 1900}, {1400, 1900}, {1400, 1000}, {0, 1000}}
		s := progress.Summary{Standing: standing, Headline: message.Of("progress.step", message.MM("mm", mm)),
			Next: message.Of(next), At: job.StationWayOut,
			Plan: progress.Plan{Room: room, Doors: [][2]plan.Point{{{1500, 0}, {2260, 0}}}, Shower: shower}}
		for k := range job.Stations() {
			s.Settled = append(s.Settled, k < 4) // up to the way out
		}
		return &s
	}
	at := func(day int) time.Time { return time.Date(2026, 1, day, 12, 0, 0, 0, time.UTC) }
	row := func(path, name string, day int, s *progress.Summary) start.Job {
		return start.Job{Path: path, Name: name, At: at(day), When: "today 14:32", Summary: s, Units: p.Begin().Units, HasBuild: s != nil,
			Build: start.Build{TopMM: 129, RoomMM: 13}}
	}
	nothing, none := func() {}, func(int) {}
	o := start.FrontOptions{Practice: p, Sheet: p.Begin(), Latest: 24, Keys: control.NewKeys(),
		Where: region + " · " + start.UnitsName(p.Begin().Units),
		Jobs: []start.Job{
			row("/sound.json", "Station Road 8, ground floor", 9, summary(geometry.Sound, 96, "progress.hand-out")),
			row("/stops.json", "3 Orchard Row", 3, summary(geometry.Stops, 112, "rule.backfall.remedy")),
			row("/tight.json", "14 Mill Lane, bathroom", 5, summary(geometry.Tight, 116, "progress.hand-out")),
			row("/later.json", "22 Hazel Close", 7, summary(geometry.Stops, 17, "rule.backfall.remedy")),
			row("/open.json", "Wharf House", 1, nil),
		},
		Kept:     []start.Kept{{Name: "3 Orchard Row", About: "Kept on 2026-01-02 17:40. The saved file is untouched."}},
		Examples: []start.Example{{Name: "Slab, out through the side wall", About: "Step 116", Plan: summary(geometry.Sound, 1, "").Plan}},
		Begin:    func(s question.Sheet) { a.begun = append(a.begun, s) }, Open: func(p string) { a.opened = append(a.opened, p) },
		Remove: func(p string) { a.removed = append(a.removed, p) }, Seek: func(p string) { a.seeks = append(a.seeks, p) },
		Copy: func(string) {}, Folder: func(string) {}, All: func() { a.all++ }, OpenFile: nothing, Parts: nothing, Light: nothing,
		ChangeWhere: nothing, LookAt: none, BringBack: none, SetAside: none, Example: none}
	o.Jobs = append(o.Jobs, start.Job{Path: "/gone.json", Name: "Gone House", When: "Monday", Gone: true, At: at(8)},
		start.Job{Path: "/broken.json", Name: "Broken", When: "Monday", Trouble: "The file is not a job.", At: at(8)})
	change(&o)
	return start.NewFront(o), &a
}

// texts are all texts that a window shows.
func texts(c fyne.Canvas) (out []string) {
	each(c.Content(), fyne.Position{}, func(o fyne.CanvasObject, _ fyne.Position) {
		switch o := o.(type) {
		case *canvas.Text:
			out = append(out, o.Text)
		case *widget.Entry:
			out = append(out, o.Text, o.PlaceHolder)
		case *control.Text:
			out = append(out, o.Lead+" "+o.Text)
		}
	})
	return out
}

// each calls a function for all that an object is made of and that is shown, with where it is.
func each(o fyne.CanvasObject, at fyne.Position, f func(fyne.CanvasObject, fyne.Position)) {
	if !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	f(o, at)
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			each(c, at, f)
		}
	case *container.Scroll:
		each(o.Content, at.Subtract(o.Offset), f)
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			each(c, at, f)
		}
	}
}

// cutOff tells of the texts that reach past the right end of the page, or of a sheet that they stand on.
func cutOff(page fyne.CanvasObject, size fyne.Size) (out []string) {
	each(page, fyne.Position{}, func(o fyne.CanvasObject, at fyne.Position) {
		if t, ok := o.(*control.Text); ok && at.X < size.Width && !t.Wrap && at.X+t.MinSize().Width > size.Width {
			out = append(out, t.Text)
		}
		if t, ok := o.(*control.Text); ok && !t.Wrap && t.Size().Width > 0 && t.MinSize().Width > t.Size().Width+1 {
			out = append(out, "narrower than its text: "+t.Text)
		}
	})
	return out
}

// typeIn types on what has the keys.
func typeIn(w fyne.Window, text string) {
	for _, r := range text {
		w.Canvas().Focused().TypedRune(r)
	}
}

// press presses the button that says so.
func press(t *testing.T, c fyne.Canvas, says string) {
	t.Helper()
	var found *control.Press
	each(c.Content(), fyne.Position{}, func(o fyne.CanvasObject, _ fyne.Position) {
		if p, ok := o.(*control.Press); ok && p.Text == says {
			found = p
		}
	})
	if found == nil {
		t.Fatalf("nothing says %q", says)
	}
	found.OnPressed()
}
