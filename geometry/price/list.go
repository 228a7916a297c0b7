// Package price works out what a job costs by the user's own list of prices. Underfall has none of its own.
package price

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"underfall/geometry/message"
	"underfall/geometry/takeoff"
)

// Row is a thing with its price, or work with its amount.
type Row struct {
	// Key is what the thing is found by in a job's list; of work, which no list has, its name.
	Key string
	// Name is for whoever reads the table.
	Name string
	// Price is of one of what the list is bought by: a pack, a piece; of work, of an hour or a whole. Priced tells
	// whether there is one: nothing stated is not nothing asked.
	Price  float64
	Priced bool
	// Amount is how much work it is; 0 for a thing.
	Amount float64
	// Unit is what the price is of where that is an area, and no pack.
	Unit Unit
	// Pack is what one of it is, for whoever reads the table.
	Pack string
}

// Unit is an area that a price may be of; none for that of a pack or a piece.
type Unit string

// The units.
const (
	PerPack       Unit = ""
	PerSquareM    Unit = "m2"
	PerSquareFoot Unit = "ft2"
)

// unitOf reads a unit as it is typed.
func unitOf(typed string) (Unit, bool) {
	switch strings.ReplaceAll(strings.TrimPrefix(strings.ToLower(typed), "per "), " ", "") {
	case "", "pack":
		return PerPack, true
	case "m2", "m²", "sqm":
		return PerSquareM, true
	case "ft2", "ft²", "sqft":
		return PerSquareFoot, true
	}
	return PerPack, false
}

// List is what a user asks for things and work.
type List struct {
	// Currency is written beside sums; may be empty.
	Currency string
	// Tax is the share that is added to the sum, from 0 to 1.
	Tax  float64
	Rows []Row
}

// Priced tells whether anything has a price.
func (l List) Priced() bool {
	return slices.ContainsFunc(l.Rows, func(r Row) bool { return r.Priced })
}

// TaxOf reads a tax as it is typed, in per cent with or without the sign; nothing typed is none. The message says why it cannot be one.
func TaxOf(typed string) (share float64, why message.Message) {
	typed = strings.TrimSpace(typed)
	if typed == "" {
		return 0, message.Message{}
	}
	v, ok := within(strings.TrimSuffix(typed, "%"), perHundred)
	if !ok {
		return 0, message.Of("price.bad-tax", message.Name("given", typed))
	}
	return v / perHundred, message.Message{}
}

// Bad is a row of a table that says nothing that can be used, by its line, with why.
type Bad struct {
	Line int
	Why  message.Message
}

// Kinds of rows, as their first column has them.
const (
	kindThing    = "item"
	kindWork     = "work"
	kindCurrency = "currency"
	kindTax      = "tax"
)

func head() []string { return []string{"kind", "key", "name", "price", "amount", "unit", "pack"} }

const (
	mostPrice  = 1e9
	mostAmount = 1e6
	mostBytes  = 4 << 20
	perHundred = 100
)

// Parse reads a list from a table, with commas, semicolons or tabs between its columns and a point or a comma in its
// numbers. Rows that cannot be used are told and left out, the rest is kept; of two with one key the first counts. The error is of
// what is no table at all.
func Parse(data []byte) (l List, bad []Bad, err error) {
	if len(data) > mostBytes {
		return l, nil, message.Fail("price.too-large")
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	first, _, _ := bytes.Cut(data, []byte("\n"))
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord, r.LazyQuotes, r.TrimLeadingSpace = -1, true, true
	for _, comma := range ";\t" {
		if bytes.ContainsRune(first, comma) {
			r.Comma = comma
		}
	}
	keys := map[string]bool{}
	for n := 0; ; n++ {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return l, bad, message.Wrap(err, "price.no-table")
		}
		line, _ := r.FieldPos(0)
		if n == 0 && strings.EqualFold(strings.TrimSpace(row[0]), head()[0]) {
			continue
		}
		if why := l.take(row, keys); !why.IsZero() {
			bad = append(bad, Bad{line, why})
		}
	}
	if len(l.Rows) == 0 && len(bad) > 0 {
		return List{}, bad, message.Fail("price.nothing")
	}
	return l, bad, nil
}

// take takes a row in, or says why not.
func (l *List) take(row []string, keys map[string]bool) message.Message {
	cell := func(i int) string {
		if i < len(row) {
			return strings.TrimSpace(row[i])
		}
		return ""
	}
	kind, key := strings.ToLower(cell(0)), cell(1)
	number := func(i int, most float64) (v float64, given, ok bool) {
		if cell(i) == "" {
			return 0, false, true
		}
		v, ok = within(cell(i), most)
		return v, true, ok
	}
	switch kind {
	case kindCurrency:
		l.Currency = key
		return message.Message{}
	case kindTax:
		share, why := TaxOf(key)
		if why.IsZero() {
			l.Tax = share
		}
		return why
	case kindThing, kindWork:
	default:
		return message.Of("price.bad-kind", message.Name("given", cell(0)))
	}
	price, priced, ok := number(3, mostPrice)
	amount, counted, okAmount := number(4, mostAmount)
	switch {
	case key == "":
		return message.Of("price.no-key")
	case keys[kind+" "+key]:
		return message.Of("price.twice", message.Name("key", key))
	case !ok:
		return message.Of("price.bad-price", message.Name("given", cell(3)))
	case !okAmount, kind == kindThing && counted && amount > 0:
		return message.Of("price.bad-amount", message.Name("given", cell(4)))
	}
	unit, okUnit := unitOf(cell(5))
	if !okUnit || kind == kindWork && unit != PerPack {
		return message.Of("price.bad-unit", message.Name("given", cell(5)))
	}
	if kind == kindWork && !counted {
		amount = 1
	}
	keys[kind+" "+key] = true
	l.Rows = append(l.Rows, Row{Key: key, Name: cell(2), Price: price, Priced: priced, Amount: amount, Unit: unit, Pack: cell(6)})
	return message.Message{}
}

// within is a number as it is typed, from nought to the most.
func within(text string, most float64) (v float64, ok bool) {
	v, ok = readNumber(strings.TrimSpace(text))
	return v, ok && v >= 0 && v <= most
}

// readNumber reads a number with a point or a comma for its fraction, and the other, an apostrophe or spaces between thousands.
func readNumber(text string) (float64, bool) {
	text = strings.NewReplacer(" ", "", "\u00a0", "", "\u202f", "", "'", "").Replace(text)
	point, comma := strings.LastIndexByte(text, '.'), strings.LastIndexByte(text, ',')
	switch {
	case point >= 0 && comma >= 0 && point > comma:
		text = strings.ReplaceAll(text, ",", "")
	case comma >= 0:
		if point >= 0 {
			text = strings.ReplaceAll(text, ".", "")
		}
		if strings.Count(text, ",") > 1 {
			return 0, false
		}
		text = strings.Replace(text, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}

// Marshal writes the list as a table that reads back the same.
func (l List) Marshal() ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	rows := [][]string{head(), {kindCurrency, l.Currency, "", "", "", "", ""}, {kindTax, plain(l.Tax * perHundred), "", "", "", "", ""}}
	for _, r := range l.Rows {
		kind, price, amount := kindThing, "", ""
		if r.Priced {
			price = plain(r.Price)
		}
		if r.Amount > 0 {
			kind, amount = kindWork, plain(r.Amount)
		}
		rows = append(rows, []string{kind, r.Key, r.Name, price, amount, string(r.Unit), r.Pack})
	}
	if err := w.WriteAll(rows); err != nil {
		return nil, fmt.Errorf("writing a list of prices: %w", err)
	}
	return out.Bytes(), nil
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// With is the list with a row for everything of a job that it has none for yet, named by say and without a price.
func (l List) With(t *takeoff.Takeoff, say func(message.Message) string) List {
	known := map[string]bool{}
	out := List{l.Currency, l.Tax, append([]Row(nil), l.Rows...)}
	for _, r := range out.Rows {
		known[r.Key] = true
	}
	for i := range t.Lines {
		l := &t.Lines[i]
		if key := Key(l); !known[key] && !known[exactKey(l)] {
			known[key] = true
			row := Row{Key: key, Name: say(l.Item)}
			if l.Form != "" {
				row.Pack = say(message.Of(l.Form.Name(), message.N("n", 1), l.Holds.Arg("holds")))
			}
			out.Rows = append(out.Rows, row)
		}
	}
	return out
}

// Key is what a line is found by in lists, the same in every language: what it is with its sizes, and the pack that it is bought in,
// which a thousandth makes no other.
func Key(l *takeoff.Line) string {
	const thousand = 1000
	return keyOf(l, math.Round(l.Holds.Value*thousand)/thousand)
}

// exactKey is the key as tables had it that were written with all digits of a pack.
func exactKey(l *takeoff.Line) string { return keyOf(l, l.Holds.Value) }

func keyOf(l *takeoff.Line, holds float64) string {
	key := l.Item.String()
	if l.Form != "" {
		key += " / " + string(l.Form) + " " + plain(holds)
	}
	return key
}
