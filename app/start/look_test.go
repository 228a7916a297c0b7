package start_test

import (
	"context"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/start"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/job"
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

func TestLook(t *testing.T) {
	out := os.Getenv("LOOK")
	if out == "" {
		t.Skip("LOOK is not set")
	}
	for _, dark := range []bool{false, true} {
		inApp(t, dark, words.British)
		for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}, {Width: 1920, Height: 1080}} {
			s := aSheet(t, "UK", func(*question.Sheet) {})
			w := test.NewTempWindow(t, s.Object())
			w.SetPadded(false)
			w.Resize(size)
			name := filepath.Join(out, "sheet-"+map[bool]string{false: "light", true: "dark"}[dark]+"-"+fmt.Sprint(size.Width)+".png")
			f, err := os.Create(name)
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
