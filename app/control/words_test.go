package control_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/unit"
)

// A field in the window's own words: what it did not take with what it would, as that would be
// typed, in both systems; which of two readings is meant.
func TestFieldWords(t *testing.T) {
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		units        unit.System
		typed, wants string
	}{
		{unit.Metric, "9999999", "9999999 was not taken: 300 to 2400 here"},
		// 2400 mm are 94.49 in, shown to the nearest sixteenth; 300 mm are 11.81 in.
		{unit.Imperial, "9999999", `9999999 was not taken: 11 13/16" to 94 1/2" here`},
		{unit.Metric, "deep", "“deep” was not taken: "},
		{unit.Metric, "1.200", "1200 mm or 1.2 mm?"},
	} {
		a := test.NewTempApp(t)
		a.Settings().SetTheme(theme.New(false, shelf.Book("en-GB", c.units, nil)))
		least := 300.0
		if c.typed == "1.200" {
			least = 0
		}
		f := control.NewField(nil, control.Number{Kind: unit.Length, Units: c.units, Least: least, Greatest: 2400},
			control.FieldWords(unit.Length, func() unit.System { return c.units }), control.Intents{})
		w := test.NewTempWindow(t, f)
		w.Resize(fyne.NewSize(300, 100))
		w.Canvas().Focus(f.Entry())
		test.Type(f.Entry(), c.typed)
		w.Canvas().Unfocus()
		says(t, nil, f, c.wants)
	}
}
