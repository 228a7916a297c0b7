package sheet_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underfall/app/sheet"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/price"
)

// A table of prices is a table to a spreadsheet program that was not written here: what that reads and writes again is the same list, with
// all that the job takes, prices as numbers, and names with commas, quotes and signs that are no letters.
func TestASpreadsheetReadsPrices(t *testing.T) {
	need(t, "ssconvert")
	r, b, folder := demotest.Shown(t)[0], book(t), t.TempDir()
	of, err := sheet.Takeoff(&r)
	if err != nil {
		t.Fatal(err)
	}
	mine := price.List{Currency: "EUR", Tax: 0.19, Rows: []price.Row{
		{Key: `Fitting, "two days", Ø 40 × 2`, Name: `Fitting, "two days", Ø 40 × 2`, Price: 1234.5, Priced: true, Amount: 2.25}}}
	csv := filepath.Join(folder, "prices.csv")
	if err := sheet.WritePrices(csv, mine, &of, func(m message.Message) string { return b.Say(m) }); err != nil {
		t.Fatal(err)
	}
	want, bad, err := sheet.ReadPrices(csv)
	if err != nil || len(bad) > 0 || len(want.Rows) < 20 {
		t.Fatalf("%d rows, %v, %v", len(want.Rows), bad, err)
	}
	book, again := filepath.Join(folder, "prices.ods"), filepath.Join(folder, "again.csv")
	run(t, "ssconvert", csv, book)
	run(t, "ssconvert", book, again)
	got, bad, err := sheet.ReadPrices(again)
	if err != nil || len(bad) > 0 || got.Currency != want.Currency || math.Abs(got.Tax-want.Tax) > 1e-12 || len(got.Rows) != len(want.Rows) {
		t.Fatalf("%d rows of %d, %s, %v, %v, %v", len(got.Rows), len(want.Rows), got.Currency, got.Tax, bad, err)
	}
	for i, row := range want.Rows {
		if got.Rows[i] != row {
			t.Errorf("%+v is read as %+v", row, got.Rows[i])
		}
	}
	// The price is a number to it, not a text: it can be summed.
	data, err := os.ReadFile(again)
	if err != nil {
		t.Fatal(err)
	}
	sum := filepath.Join(folder, "sum.csv")
	if err := os.WriteFile(sum, append(data, "sum,,,=SUM(D1:D200),\n"...), 0o600); err != nil {
		t.Fatal(err)
	}
	run(t, "ssconvert", sum, filepath.Join(folder, "summed.csv"))
	if data, err = os.ReadFile(filepath.Join(folder, "summed.csv")); err != nil || !strings.Contains(string(data), "sum,,,1234.5") {
		t.Errorf("the prices sum up to %s, want 1234.5; %v", data[max(0, len(data)-80):], err)
	}
}
