package price

import (
	"strings"

	"underfall/geometry/message"
)

// ParseWork reads work as it is typed, a line each: what it is, how much of it where that is not one, and the price of one, with
// semicolons between. Lines that cannot be used are told and left out; empty ones say nothing.
func ParseWork(text string) (rows []Row, bad []Bad) {
	const fewest, most = 2, 3
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		cells := strings.Split(line, ";")
		name := strings.TrimSpace(cells[0])
		refuse := func(why message.Message) { bad = append(bad, Bad{i + 1, why}) }
		if len(cells) < fewest || len(cells) > most || name == "" {
			refuse(message.Of("price.work-line", message.Name("given", strings.TrimSpace(line))))
			continue
		}
		row := Row{Key: name, Name: name, Amount: 1, Priced: true}
		last := len(cells) - 1
		var ok bool
		if row.Price, ok = within(cells[last], mostPrice); !ok {
			refuse(message.Of("price.bad-price", message.Name("given", strings.TrimSpace(cells[last]))))
			continue
		}
		if last > 1 {
			if row.Amount, ok = within(cells[1], mostAmount); !ok || row.Amount == 0 {
				refuse(message.Of("price.bad-amount", message.Name("given", strings.TrimSpace(cells[1]))))
				continue
			}
		}
		rows = append(rows, row)
	}
	return rows, bad
}
