package start_test

import (
	"context"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/start"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/progress"
	"underfall/geometry/question"
)

// inApp has a test's widgets in the program's own theme and language.
func inApp(t *testing.T, dark bool, language string) {
	t.Helper()
	a := test.NewTempApp(t)
	books, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	a.Settings().SetTheme(theme.New(dark, books.Book(language, "metric", nil)))
}

// aSheet is the page of a new job in a country, with its answers worked out at once.
func aSheet(t *testing.T, region string, change func(*question.Sheet)) *start.Sheet {
	t.Helper()
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	practices := map[string]question.Practice{}
	in := func(region string) question.Practice {
		if _, ok := practices[region]; !ok {
			practices[region] = question.PracticeIn(region, shelf)
		}
		return practices[region]
	}
	sheet := in(region).Begin()
	change(&sheet)
	return start.NewSheet(start.SheetOptions{Sheet: sheet, Regions: []start.Region{{"UK", "United Kingdom"}, {"US", "United States"}}, PracticeIn: in,
		Answer: func(p question.Practice, s question.Sheet, show func(start.First, bool)) {
			show(start.FirstAnswer(context.Background(), p, packs[s.Region], s))
		},
		Work: func(job.Job) {}, Back: func() {}, Kept: func(question.Sheet) {}, Keys: control.NewKeys()})
}

// aFront is the start page with the demo jobs as its rows.
func aFront(t *testing.T, region string) *start.Front {
	t.Helper()
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	practice := question.PracticeIn(region, shelf)
	o := start.FrontOptions{Practice: practice, Sheet: practice.Begin(), Where: "United Kingdom · mm · English", Keys: control.NewKeys(),
		Kept: []start.Kept{{Name: "3 Orchard Row", About: "Kept yesterday at 17:40. The saved file is untouched."}}, Parts: func() {}}
	for i, d := range demos {
		r := geometry.Evaluate(d.Job, packs[d.Job.Region])
		s := progress.Of(&r, r.Answer(nil))
		j := start.Job{Path: "/" + d.File, Name: d.Job.Name, When: "today 14:32", Summary: &s, Units: d.Job.Units, At: time.Unix(int64(i), 0)}
		j.Build, j.HasBuild = start.BuildOf(&r)
		if i < 5 {
			o.Jobs = append(o.Jobs, j)
		}
		o.Examples = append(o.Examples, start.Example{Name: d.Job.Name, About: theme.Say(s.Headline, d.Job.Units), Plan: s.Plan})
	}
	o.Jobs = append(o.Jobs, start.Job{Path: "/gone.json", Name: "Wharf House", When: "Monday", Gone: true},
		start.Job{Path: "/new.json", Name: "Station Road 8", When: "6 November"})
	return start.NewFront(o)
}

func TestLook(t *testing.T) {
	out := os.Getenv("LOOK")
	if out == "" {
		t.Skip("LOOK is not set")
	}
	for _, dark := range []bool{false, true} {
		inApp(t, dark, words.British)
		for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}, {Width: 1920, Height: 1080}} {
			for name, o := range map[string]fyne.CanvasObject{"sheet": aSheet(t, "UK", func(*question.Sheet) {}).Object(), "front": aFront(t, "UK").Object()} {
				w := test.NewTempWindow(t, o)
				w.SetPadded(false)
				w.Resize(size)
				f, err := os.Create(filepath.Join(out, fmt.Sprintf("%s-%v-%v.png", name, map[bool]string{false: "light", true: "dark"}[dark], size.Width)))
				if err != nil {
					t.Fatal(err)
				}
				if err := png.Encode(f, w.Canvas().Capture()); err != nil {
					t.Fatal(err)
				}
				f.Close()
			}
		}
	}
}
