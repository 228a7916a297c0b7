package sheet

import (
	"fmt"
	"strings"

	"underfall/geometry/message"
	"underfall/geometry/price"
)

// NoPricesYet is what a quote says in which nothing has a price.
const NoPricesYet message.ID = "sheet.no-prices-yet"

// quote is what the job costs by the user's prices: things, work, the sums, and what has no price.
func (m *maker) quote() ([]block, error) {
	list, err := m.takeoff()
	if err != nil {
		return nil, err
	}
	q := price.Of(&list, m.Prices)
	out := m.forWhom(headingPoints)
	for _, says := range m.quoteLacks(&q) {
		out = append(append(out, m.lines(m.full.Say(says), strong())...), gap(6))
	}
	var rows [][]string
	for i := range q.Lines {
		rows = append(rows, m.quoted(&q.Lines[i]))
	}
	columns := []tableColumn{m.column("sheet.column.what", 4.9), m.column("sheet.column.amount", 1.9).aligned(),
		m.column("sheet.column.price", 0.9).aligned(), m.column("sheet.column.sum", 1.2).figures()}
	out = append(out, table(m.to, columns, rows, m.wide)...)
	sums := [][]string{{m.full.Text("sheet.net"), "", "", m.money(q.NetCents)}}
	if m.Prices.Tax > 0 {
		tax := m.full.Say(message.Of("sheet.tax", message.Name("share", fmt.Sprintf("%g", 100*m.Prices.Tax))))
		sums = append(sums, []string{tax, "", "", m.money(q.TaxCents)},
			[]string{m.full.Text("sheet.gross"), "", "", m.money(q.GrossCents)})
	}
	if m.Prices.Tax == 0 && m.Prices.Priced() {
		sums = append(sums, []string{m.full.Text("sheet.no-tax"), "", "", ""})
	}
	for i := range columns {
		columns[i].head = ""
	}
	out = append(append(out, gap(8)), m.together(table(m.to, columns, sums, m.wide))...)
	if until := strings.TrimSpace(m.Until); until != "" {
		out = append(append(out, gap(8)), m.lines(m.full.Say(message.Of("sheet.valid-until", message.Name("until", until))), strong())...)
	}
	out = append(append(out, gap(8)), m.lines(m.full.Text("sheet.quote-note"), style{size: smallPoints, soft: true})...)
	return out, nil
}

// quoteLacks says what a quote still lacks: prices at all, the currency that they are in, those of some things or of all but work.
func (m *maker) quoteLacks(q *price.Quote) (out []message.Message) {
	if !m.Prices.Priced() {
		return []message.Message{message.Of(NoPricesYet)}
	}
	if m.Prices.Currency == "" {
		out = append(out, message.Of("sheet.no-currency"))
	}
	if q.Missing > 0 {
		out = append(out, unpriced(q))
	}
	return out
}

// unpriced says how many things have no price.
func unpriced(q *price.Quote) message.Message {
	if q.OnlyWork() {
		return message.Of("sheet.labour-only", message.N("n", q.Missing))
	}
	return message.Of("sheet.missing", message.N("n", q.Missing))
}

// quoted is a line of a quote as a row: what has no price has a dash.
func (m *maker) quoted(x *price.Line) []string {
	what, amount := x.Work, fmt.Sprintf("%g", x.Amount)
	if x.Of != nil {
		what = m.full.Say(x.Of.Item)
		if amount = m.full.Value(x.Of.Needed.Arg("needed").Value); x.Of.Form != "" {
			amount = m.full.Say(x.Of.Bought())
		}
		if x.Unit != price.PerPack && x.Priced {
			amount = m.full.Value(message.Area{MM2: x.AreaMM2()})
		}
	}
	if !x.Priced {
		return []string{what, amount, "–", "–"}
	}
	return []string{what, amount, fmt.Sprintf("%.2f", x.Price), fmt.Sprintf("%.2f", float64(x.Cents)/100)}
}

// money is a sum with its currency.
func (m *maker) money(cents int64) string {
	text := fmt.Sprintf("%.2f", float64(cents)/100)
	switch sign, before := signs()[strings.ToUpper(m.Prices.Currency)]; {
	case m.Prices.Currency == "":
		return text
	case before:
		return sign + text
	}
	return text + " " + m.Prices.Currency
}

// signs are those of currencies that are written before the amount, by how they may be typed. From memory.
func signs() map[string]string {
	return map[string]string{"GBP": "£", "£": "£", "USD": "$", "AUD": "$", "NZD": "$", "$": "$", "US$": "US$", "A$": "A$", "NZ$": "NZ$"}
}
