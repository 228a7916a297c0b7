package tray

import (
	"testing"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/unit"
)

// british is the book of British English.
func british(t *testing.T) words.Book {
	t.Helper()
	s, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	return s.Book(words.British, unit.Metric, nil)
}

// Fittings read back what is written of them.
func TestFittingWords(t *testing.T) {
	for _, f := range []job.Fitting{
		{Kind: job.FittingReducer, AtMM: 250, LengthMM: 60, Reversed: true,
			Pipe: part.Pipe{NominalMM: 40, OutsideDiameterMM: 43, BoreMM: 39}.WithUsualFittings()},
		{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 140, Slope: 0.05},
	} {
		got, err := readFitting(writeFitting(f, "metric", british(t)), "metric", british(t))
		if err != nil || got != f {
			t.Errorf("%q reads back as %+v, %v", writeFitting(f, "metric", british(t)), got, err)
		}
	}
	for _, s := range []string{"", "valve at 3", "reducer to 43/39", "reducer at 100 to 43", "falling piece at x"} {
		if _, err := readFitting(s, "metric", british(t)); err == nil {
			t.Errorf("%q is taken", s)
		}
	}
}

// Fittings and lists read back in inches as well, where fractions have strokes.
func TestListsReadBackInInches(t *testing.T) {
	for _, s := range []unit.System{unit.Metric, unit.Imperial} {
		for _, f := range []job.Fitting{
			{Kind: job.FittingReducer, AtMM: 250, LengthMM: 60, Reversed: true,
				Pipe: part.Pipe{NominalMM: 40, OutsideDiameterMM: 43, BoreMM: 39, SocketOutsideMM: 43 + 7}},
			{Kind: job.FittingReducer, AtMM: 1200.25, LengthMM: 60,
				Pipe: part.Pipe{NominalMM: 50, OutsideDiameterMM: 50.8, BoreMM: 38.1, SocketOutsideMM: 50.8 + 7}},
			{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 140, Slope: 0.05},
		} {
			text := writeFitting(f, s, british(t))
			got, err := readFitting(text, s, british(t))
			if err != nil || writeFitting(got, s, british(t)) != text {
				t.Errorf("%s: %q reads back as %q, %v", s, text, writeFitting(got, s, british(t)), err)
			}
		}
	}
	columns := []unit.Column{unit.Any(unit.Length), unit.Any(unit.Flow)}
	for _, s := range []unit.System{unit.Metric, unit.Imperial} {
		text := joinNumbers([]float64{1200.25, 0.4}, columns, s)
		got, err := unit.ParseColumns(text, columns, 2, s)
		if err != nil || joinNumbers(got, columns, s) != text {
			t.Errorf("%s: %q reads back as %v, %v", s, text, got, err)
		}
	}
}
