package papers

import (
	"image"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/pen"
	"underfall/app/roomtest"
	"underfall/app/sheet"
	"underfall/app/theme"
	"underfall/assets"
)

// opened is the room with the first demo, and the drafts that it asked for.
func opened(t *testing.T) (b *roomtest.Bench, room *Room, drafts *[]func(image.Image)) {
	t.Helper()
	b = roomtest.New(t, roomtest.First(t))
	b.Until("a result", func() bool { return b.Change.Result.Assembly.Parts != nil })
	drafts = new([]func(image.Image))
	r := b.Change.Result
	asked := sheet.Asked{Paper: sheet.Papers()[0], Made: time.Date(2026, 3, 4, 15, 16, 0, 0, time.UTC)}
	room = Open(Asks{Result: r, Answer: r.Answer(nil), Asked: asked,
		Words: theme.Book(), Fonts: fontsOf(t), Guard: b.Guard, Keys: control.NewKeys(), OnWindow: b.Do, Kept: fyne.CurrentApp().Preferences(),
		Draft: func(take func(image.Image)) { *drafts = append(*drafts, take) }})
	w := test.NewTempWindow(t, room.Object())
	w.Resize(fyne.NewSize(1000, 700))
	return b, room, drafts
}

// fontsOf are fonts for one room: one that is opened beside another draws beside it.
func fontsOf(t *testing.T) *pen.Fonts {
	t.Helper()
	fonts, err := pen.NewFonts(assets.TextFont(), assets.BoldFont())
	if err != nil {
		t.Fatal(err)
	}
	return fonts
}

// The customer's sheet alone asks for a quick picture, once, and has it when it comes.
func TestTheCustomersSheetHasADraft(t *testing.T) {
	b, room, drafts := opened(t)
	b.Until("a page", func() bool { _, of := room.Page(); return of > 0 })
	if len(*drafts) > 0 {
		t.Error("the fitter's sheet has a picture drawn")
	}
	for range 2 {
		room.Choose(string(sheet.Customer))
		room.Choose(string(sheet.Order))
	}
	room.Choose(string(sheet.Customer))
	if len(*drafts) != 1 || room.draft != nil {
		t.Fatalf("%d drafts are asked for, one is there: %v", len(*drafts), room.draft != nil)
	}
	(*drafts)[0](image.NewRGBA(image.Rect(0, 0, 30, 14)))
	if room.draft == nil {
		t.Error("the draft is not taken")
	}
	b.Until("the customer's page", func() bool { page, of := room.Page(); return page == 1 && of == 1 })
}

// A picture of the finished shower that was drawn in full before stands on the customer's sheet: no draft of it is drawn.
func TestTheCustomersSheetHasThePictureDrawnBefore(t *testing.T) {
	b, room, drafts := opened(t)
	room.asked.Picture, room.asked.Samples = image.NewRGBA(image.Rect(0, 0, 30, 14)), 48
	room.Choose(string(sheet.Customer))
	b.Until("the customer's page", func() bool { page, of := room.Page(); return page == 1 && of == 1 })
	if len(*drafts) > 0 {
		t.Error("a draft is drawn")
	}
}

// Another sheet begins at its first page, though a page of the one before is still being drawn.
func TestAnotherSheetBeginsAtItsFirstPage(t *testing.T) {
	b, room, _ := opened(t)
	b.Until("a page", func() bool { _, of := room.Page(); return of > 2 })
	_, of := room.Page()
	for range of {
		room.Key(fyne.KeyPageDown)
	}
	room.Choose(string(sheet.Order))
	b.Until("the order", func() bool { page, n := room.Page(); return page == 1 && n < of })
}

// typed types into a field of the room and leaves it.
func typed(e *control.Entry, text string) {
	e.SetText(text)
	e.OnLeave()
}

// Currency and tax are the user's own: kept on the machine, those of a list of prices stand where nothing is typed, and a tax that is
// none is told.
func TestCurrencyAndTaxAreTheUsersOwn(t *testing.T) {
	_, room, _ := opened(t)
	kept := room.asks.Kept
	typed(room.work, "Fitting; 2; 380")
	typed(room.currency, "EUR")
	typed(room.tax, "19 %")
	if p := room.asked.Prices; p.Currency != "EUR" || p.Tax != 0.19 ||
		kept.String("paper-currency-UK") != "EUR" || kept.String("paper-tax-UK") != "19 %" {
		t.Errorf("%+v, kept: %q, %q", p, kept.String("paper-currency-UK"), kept.String("paper-tax-UK"))
	}
	table := filepath.Join(t.TempDir(), "prices.csv")
	if err := os.WriteFile(table, []byte("kind;key;name;price\ncurrency;CHF\ntax;8,1\nwork;Tiling;;100\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	room.TakePrices(table)
	if p := room.asked.Prices; p.Currency != "EUR" || p.Tax != 0.19 {
		t.Errorf("the table goes before what is typed: %+v", p)
	}
	typed(room.currency, "")
	typed(room.tax, "")
	if p := room.asked.Prices; p.Currency != "CHF" || p.Tax != 0.081 || room.currency.PlaceHolder != "CHF" || room.tax.PlaceHolder != "8.1" {
		t.Errorf("of the table: %+v, shown as %q and %q", p, room.currency.PlaceHolder, room.tax.PlaceHolder)
	}
	typed(room.tax, "lots")
	if p := room.asked.Prices; p.Tax != 0.081 || !strings.Contains(room.Told(), "“lots” is no tax") || kept.String("paper-tax-UK") != "" {
		t.Errorf("a tax that is none: %v, kept: %q, told: %q", p.Tax, kept.String("paper-tax-UK"), room.Told())
	}
}

// What is typed for jobs of one country is not that of another: there sums are in its own currency, with its own tax where it has one
// rate for all of it, and it is said where it has not. By ISO 4217; the rate in the United Kingdom from memory.
func TestCurrencyAndTaxOfTheCountry(t *testing.T) {
	b, room, _ := opened(t)
	if p := room.asked.Prices; p.Currency != "GBP" || p.Tax != 0.2 || room.currency.PlaceHolder != "GBP" ||
		room.tax.PlaceHolder != "20" || room.noTax.Visible() {
		t.Errorf("in the United Kingdom: %+v, shown as %q and %q", p, room.currency.PlaceHolder, room.tax.PlaceHolder)
	}
	typed(room.currency, "£")
	typed(room.tax, "5")
	asks := room.asks
	asks.Result.Stated.Region, asks.Result.Settled.Region = "US", "US"
	asks.Fonts = fontsOf(t)
	there := Open(asks)
	if p := there.asked.Prices; p.Currency != "USD" || p.Tax != 0 || there.currency.Text+there.tax.Text != "" || !there.noTax.Visible() {
		t.Errorf("in the United States: %+v", p)
	}
	typed(there.tax, "8.5")
	if p := there.asked.Prices; p.Tax != 0.085 || there.noTax.Visible() {
		t.Errorf("in the United States with a tax: %+v", p)
	}
	asks = room.asks
	asks.Fonts = fontsOf(t)
	again := Open(asks)
	if again.currency.Text != "£" || again.tax.Text != "5" {
		t.Errorf("back, it is %q and %q", again.currency.Text, again.tax.Text)
	}
	b.Until("pages", func() bool {
		for _, r := range []*Room{room, there, again} {
			if _, of := r.Page(); of == 0 || r.drawing {
				return false
			}
		}
		return true
	})
}

// A quote can be looked at before anything has a price, and says what it lacks; it is not written, alone or with all of them.
func TestAQuoteWithoutPricesIsNotWritten(t *testing.T) {
	b, room, _ := opened(t)
	var wrote []sheet.Kind
	room.asks.Write = func(_ string, kinds []sheet.Kind, _ sheet.Asked, _ bool) { wrote = kinds }
	room.Choose(string(sheet.Quote))
	b.Until("a page of the quote", func() bool { _, of := room.Page(); return of > 0 && !room.drawing })
	if room.write(false); wrote != nil || !strings.Contains(room.Told(), "Not a quote yet") {
		t.Errorf("%v is written, told: %q", wrote, room.Told())
	}
	room.Choose(all)
	if room.write(false); slices.Contains(wrote, sheet.Quote) {
		t.Error("all of them have a quote without prices")
	}
	typed(room.work, "Fitting; 2; 380")
	if room.write(false); !slices.Contains(wrote, sheet.Quote) {
		t.Error("all of them have no quote with prices")
	}
	room.Choose(string(sheet.Quote))
	if room.write(false); len(wrote) != 1 || wrote[0] != sheet.Quote {
		t.Errorf("%v is written", wrote)
	}
}

// Nothing with a sum is written while work or tax that is typed cannot be read, and how work is written is told.
func TestNoSumOfWhatCannotBeRead(t *testing.T) {
	_, room, _ := opened(t)
	wrote := 0
	room.asks.Write = func(string, []sheet.Kind, sheet.Asked, bool) { wrote++ }
	room.Choose(string(sheet.Quote))
	for _, c := range []struct{ work, tax, told string }{
		{"Fitting; 2; 380\nOne day fitting 280", "", "Line 2 is left out: “One day fitting 280” is not read: work is written as"},
		{"Fitting; 2; 380", "lots", "“lots” is no tax from 0 to 100 %. Write its percentage as a number"},
	} {
		room.work.SetText(c.work)
		room.tax.SetText(c.tax)
		if room.write(false); wrote > 0 || !strings.Contains(room.Told(), c.told) {
			t.Errorf("%+v: %d written, told: %q", c, wrote, room.Told())
		}
	}
	room.Choose(string(sheet.Fitter))
	if room.write(false); wrote != 1 {
		t.Error("a sheet without a sum is not written")
	}
}

// A customer is told what it costs only when that is ticked, which takes a price.
func TestCostsAreTickedForTheCustomer(t *testing.T) {
	_, room, _ := opened(t)
	if !room.costs.Disabled() {
		t.Error("costs without a price can be ticked")
	}
	typed(room.work, "Fitting; 2; 380")
	if room.costs.Disabled() || room.asked.Costs {
		t.Error("costs with a price cannot be ticked, or are")
	}
	if room.costs.SetChecked(true); !room.asked.Costs {
		t.Error("ticked costs are not asked for")
	}
}

// What is told stands over the buttons, which stay within the room.
func TestWhatIsToldTakesItsRoom(t *testing.T) {
	_, room, _ := opened(t)
	if room.told.Visible() {
		t.Error("nothing takes room")
	}
	for _, text := range []string{"lots", "-3", ""} {
		typed(room.tax, text)
		object := room.Object()
		for _, o := range object.(*fyne.Container).Objects {
			if o.Visible() && o.Position().Y+o.Size().Height > object.Size().Height+0.5 {
				t.Errorf("with “%s” %T reaches down to %v of %v", text, o, o.Position().Y+o.Size().Height, object.Size().Height)
			}
			if o.Size().Height < o.MinSize().Height-0.5 {
				t.Errorf("with “%s” %T is %v high, not %v", text, o, o.Size().Height, o.MinSize().Height)
			}
		}
	}
}

// Whom and where a job is for and its order are kept with it, and stand on its paper again; another job has none of them.
func TestWhereTheJobIsIsKeptWithIt(t *testing.T) {
	b, room, _ := opened(t)
	typed := map[*control.Entry]string{room.customer: "A. Example", room.address: "1 Example Road", room.number: "2026-118"}
	for e, text := range typed {
		e.SetText(text)
		e.OnLeave()
	}
	again := func(of string) sheet.Asked {
		asks := room.asks
		asks.For, asks.Fonts = of, fontsOf(t)
		return Open(asks).asked
	}
	if q := again(room.asks.For); q.Customer != "A. Example" || q.Address != "1 Example Road" || q.Number != "2026-118" {
		t.Errorf("of the same job: %q, %q, %q", q.Customer, q.Address, q.Number)
	}
	if q := again("another"); q.Customer+q.Address+q.Number != "" {
		t.Errorf("of another job: %q, %q, %q", q.Customer, q.Address, q.Number)
	}
	b.Until("a page", func() bool { _, of := room.Page(); return of > 0 })
}
