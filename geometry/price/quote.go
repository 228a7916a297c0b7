package price

import (
	"math"
	"slices"

	"underfall/geometry/guide"
	"underfall/geometry/takeoff"
)

// Line is a line of a quote.
type Line struct {
	// Of is the line of the job's list; nil for work.
	Of *takeoff.Line
	// Work is what is done.
	Work string
	// Amount is how many packs or pieces, or how much of what is sold as needed: metres, square metres, kilograms, litres, hours.
	Amount, Price float64
	Priced        bool
	// Unit is the area that the price is of; none where it is of a pack or a piece.
	Unit Unit
	// Cents is the sum, in hundredths of the currency.
	Cents int64
}

// Quote is what a job costs.
type Quote struct {
	Lines []Line
	// NetCents, TaxCents and GrossCents are the sums in hundredths of the currency, of what has a price.
	NetCents, TaxCents, GrossCents int64
	// Missing is how many things have no price.
	Missing int
}

// OnlyWork tells that work alone has prices, though things are needed as well.
func (q *Quote) OnlyWork() bool {
	return q.Missing > 0 && !slices.ContainsFunc(q.Lines, func(x Line) bool { return x.Of != nil && x.Priced })
}

// Of works out what a job's list costs by a list of prices. Each line is rounded to a hundredth, half away from nought, and the sums are of
// what is shown.
func Of(t *takeoff.Takeoff, l List) Quote {
	prices := map[string]Row{}
	for _, r := range l.Rows {
		if r.Amount == 0 {
			prices[r.Key] = r
		}
	}
	var q Quote
	add := func(x Line) {
		if x.Priced {
			x.Cents = int64(math.Round(x.Amount * x.Price * perHundred))
		} else {
			q.Missing++
		}
		q.NetCents += x.Cents
		q.Lines = append(q.Lines, x)
	}
	for i := range t.Lines {
		line := &t.Lines[i]
		row, ok := prices[Key(line)]
		if !ok {
			row = prices[exactKey(line)]
		}
		if row.Unit != PerPack && line.Needed.Measure != guide.Area {
			row = Row{} // no area of it is bought
		}
		add(Line{Of: line, Amount: amount(line, row.Unit), Price: row.Price, Priced: row.Priced, Unit: row.Unit})
	}
	for _, r := range l.Rows {
		if r.Amount > 0 {
			work := r.Name
			if work == "" {
				work = r.Key
			}
			add(Line{Work: work, Amount: r.Amount, Price: r.Price, Priced: r.Priced})
		}
	}
	q.TaxCents = int64(math.Round(float64(q.NetCents) * l.Tax))
	q.GrossCents = q.NetCents + q.TaxCents
	return q
}

// AreaMM2 is the area of a line that is bought: that of its packs, or what is needed.
func (x *Line) AreaMM2() float64 { return boughtMM2(x.Of) }

func boughtMM2(l *takeoff.Line) float64 {
	if l.Form != "" {
		return float64(l.Packs) * l.Holds.Value
	}
	return l.Needed.Value
}

// amount is how much of a line is bought: its area where that is priced, its packs, or what is needed of it in metres, square metres
// and the like.
func amount(l *takeoff.Line, unit Unit) float64 {
	const mmPerM, mmPerFoot = 1000, 304.8
	switch {
	case unit == PerSquareM:
		return boughtMM2(l) / (mmPerM * mmPerM)
	case unit == PerSquareFoot:
		return boughtMM2(l) / (mmPerFoot * mmPerFoot)
	case l.Form != "":
		return float64(l.Packs)
	case l.Needed.Measure == guide.Length:
		return l.Needed.Value / mmPerM
	case l.Needed.Measure == guide.Area:
		return l.Needed.Value / (mmPerM * mmPerM)
	}
	return l.Needed.Value
}
