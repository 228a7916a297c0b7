package price_test

import (
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/guide"
	"underfall/geometry/message"
	"underfall/geometry/price"
	"underfall/geometry/takeoff"
)

// list is a job's list by hand: three bags, 6.7 m as needed, two pieces.
func list() takeoff.Takeoff {
	return takeoff.Takeoff{Lines: []takeoff.Line{
		{Item: message.Of("order.glue"), Form: guide.Bag, Holds: guide.Amount{Measure: guide.Mass, Value: 20}, Packs: 3},
		{Item: message.Of("order.strip", message.MM("size", 9)), Needed: guide.Amount{Measure: guide.Length, Value: 6700}},
		{Item: message.Of("order.corner"), Needed: guide.Amount{Measure: guide.Count, Value: 2}},
	}}
}

// By hand: 3 × 18.95 = 56.85; 6.7 × 4.10 = 27.47; corners have no price; 5.5 h × 48 = 264. Net 348.32, at 20 % 69.66
// (69.664), gross 417.98.
func TestQuoteByHand(t *testing.T) {
	table := "kind;key;name;price;amount\ncurrency;EUR\ntax;20 %\n" +
		"item;order.glue / bag 20;Glue;18,95\nitem;order.strip{size: 9 mm};Strip;4,10\nwork;fit;Fitting;48;5,5\n"
	l, bad, err := price.Parse([]byte(table))
	if err != nil || len(bad) > 0 {
		t.Fatal(bad, err)
	}
	job := list()
	q := price.Of(&job, l)
	var cents []int64
	for _, x := range q.Lines {
		cents = append(cents, x.Cents)
	}
	if !reflect.DeepEqual(cents, []int64{5685, 2747, 0, 26400}) || q.NetCents != 34832 || q.TaxCents != 6966 ||
		q.GrossCents != 41798 || q.Missing != 1 || l.Currency != "EUR" {
		t.Errorf("%v: %+v", cents, q)
	}
}

// Tile by its area: 40 tiles of 203 by 203 are 1.64836 m², at 30 a square metre 49.45; of 6 by 3 in with joints, 167 of 11978.302656 mm²
// are 2000376.54 mm², 21.53187 ft², at 2.80 60.29. A table that was written with all digits of a pack is still read.
func TestTileByItsArea(t *testing.T) {
	job := takeoff.Takeoff{Lines: []takeoff.Line{
		{Item: message.Of("order.a"), Form: guide.Tile, Needed: guide.Amount{Measure: guide.Area, Value: 1.5e6},
			Holds: guide.Amount{Measure: guide.Area, Value: 41209}, Packs: 40},
		{Item: message.Of("order.b"), Form: guide.Tile, Needed: guide.Amount{Measure: guide.Area, Value: 1.9e6},
			Holds: guide.Amount{Measure: guide.Area, Value: 11978.302656250002}, Packs: 167},
	}}
	if key := price.Key(&job.Lines[1]); key != "order.b / tile 11978.303" {
		t.Errorf("the key is %s", key)
	}
	for _, key := range []string{"order.b / tile 11978.303", "order.b / tile 11978.302656250002"} {
		l, bad, err := price.Parse([]byte("kind,key,name,price,amount,unit\nitem,order.a / tile 41209,A,30,,m2\n" +
			"item," + key + ",B,2.8,,per sq ft\nitem,c,C,3,,furlong\n"))
		if err != nil || len(bad) != 1 || bad[0].Line != 4 {
			t.Fatalf("%v, %v", bad, err)
		}
		if q := price.Of(&job, l); q.Lines[0].Cents != 4945 || q.Lines[1].Cents != 6029 {
			t.Errorf("%s: %d, %d", key, q.Lines[0].Cents, q.Lines[1].Cents)
		}
	}
}

// Bad rows are named by their lines and the rest is kept.
func TestBadRowsAreTold(t *testing.T) {
	table := "kind,key,name,price,amount\nitem,a,A,12.50\nitem,b,B,cheap\nthing,c,C,1\nitem,,D,1\nitem,a,A again,3\n" +
		"item,e,E,-1\nwork,f,F,10,much\ntax,120\nitem,g,G,\nitem,h,H,1e12\n"
	l, bad, err := price.Parse([]byte(table))
	if err != nil {
		t.Fatal(err)
	}
	var lines []int
	for _, b := range bad {
		lines = append(lines, b.Line)
	}
	if !reflect.DeepEqual(lines, []int{3, 4, 5, 6, 7, 8, 9, 11}) {
		t.Errorf("bad are the lines %v: %v", lines, bad)
	}
	want := []price.Row{{Key: "a", Name: "A", Price: 12.5, Priced: true}, {Key: "g", Name: "G"}}
	if !reflect.DeepEqual(l.Rows, want) {
		t.Errorf("kept: %+v", l.Rows)
	}
	if _, _, err := price.Parse([]byte("this is\nno table of\nprices at all")); err == nil {
		t.Error("any text is taken")
	}
}

// Tax as it is typed: in per cent, with its sign or without, none where nothing is typed.
func TestTaxAsItIsTyped(t *testing.T) {
	for typed, want := range map[string]float64{"": 0, " ": 0, "20": 0.2, "7,7 %": 0.077, "0": 0, "100%": 1} {
		if got, why := price.TaxOf(typed); got != want || !why.IsZero() {
			t.Errorf("“%s” is %v: %v", typed, got, why)
		}
	}
	for _, typed := range []string{"-1", "101", "much"} {
		if _, why := price.TaxOf(typed); why.IsZero() {
			t.Errorf("“%s” is a tax", typed)
		}
	}
}

// Numbers as spreadsheets write them.
func TestNumbersOfSpreadsheets(t *testing.T) {
	for text, want := range map[string]float64{"1234.5": 1234.5, "1234,5": 1234.5, "1.234,50": 1234.5, "1,234.50": 1234.5,
		"1'234.50": 1234.5, "1 234,50": 1234.5, "12": 12} {
		l, bad, err := price.Parse([]byte("kind;key;name;price\nitem;a;A;" + text + "\n"))
		if err != nil || len(bad) > 0 || l.Rows[0].Price != want {
			t.Errorf("%s: %+v, %v, %v", text, l.Rows, bad, err)
		}
	}
}

// A list reads back as it was written, whatever its names.
func TestListsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[A-Za-z0-9ü"',;.{}: /-]{0,20}[a-z]`)
		l := price.List{Currency: rapid.StringMatching(`[A-Z]{0,3}`).Draw(t, "currency"), Tax: float64(rapid.IntRange(0, 100).Draw(t, "tax")) / 100}
		keys := map[string]bool{}
		for range rapid.IntRange(1, 8).Draw(t, "rows") {
			key := strings.TrimSpace(word.Draw(t, "key"))
			if keys[key] {
				continue
			}
			keys[key] = true
			r := price.Row{Key: key, Name: strings.TrimSpace(word.Draw(t, "name"))}
			if r.Priced = rapid.Bool().Draw(t, "priced"); r.Priced {
				r.Price = float64(rapid.IntRange(0, 1e7).Draw(t, "cents")) / 100
			}
			if rapid.Bool().Draw(t, "work") {
				r.Amount = float64(rapid.IntRange(1, 1000).Draw(t, "amount")) / 8
			}
			l.Rows = append(l.Rows, r)
		}
		data, err := l.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		got, bad, err := price.Parse(data)
		if err != nil || len(bad) > 0 || !reflect.DeepEqual(got, l) {
			t.Fatalf("%s\nread %+v, %v, %v\nwritten %+v", data, got, bad, err, l)
		}
	})
}

// A list with what a job takes has a row for each thing once, and keeps what it had.
func TestListWithAJob(t *testing.T) {
	job := list()
	say := func(m message.Message) string { return string(m.ID) }
	old := price.List{Currency: "GBP", Rows: []price.Row{{Key: "order.glue / bag 20", Name: "My glue", Price: 20, Priced: true}}}
	got := old.With(&job, say)
	if len(got.Rows) != 3 || got.Rows[0] != old.Rows[0] || got.Rows[1].Priced || got.Currency != "GBP" {
		t.Errorf("%+v", got)
	}
	if again := got.With(&job, say); !reflect.DeepEqual(again, got) {
		t.Errorf("once more: %+v", again)
	}
	if q := price.Of(&job, got); q.Missing != 2 || q.NetCents != 6000 {
		t.Errorf("%+v", q)
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte("kind;key;name;price;amount\nitem;a;A;1,5\n"))
	f.Add([]byte("\ufeffitem,\"a\"\"b\",c,1\n\"unclosed"))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, _, err := price.Parse(data)
		if err != nil {
			return
		}
		for _, r := range l.Rows {
			if r.Key == "" || r.Price < 0 || r.Amount < 0 {
				t.Errorf("%+v", r)
			}
		}
		if _, err := l.Marshal(); err != nil {
			t.Error(err)
		}
	})
}
