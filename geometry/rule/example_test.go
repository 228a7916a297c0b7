package rule_test

import (
	"fmt"

	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// Is a pipe flat enough to stop the job? 1:60 is 16.7 mm on a metre, under the
// 18 that the rule asks for; 1:50 is 20.
func ExamplePack_Judge() {
	p, err := rule.ParsePack([]byte(`{"region": "XX", "name": "Example", "grounds": "Invented.", "rules": [{
		"id": "too-flat", "subject": "Pipe too flat", "quantity": "pipe.gradient", "compare": "at-least", "limit": 0.018,
		"severity": "stop", "text": "Water leaves dirt behind.", "remedy": "Give the pipe more fall.",
		"source": {"document": "Invented"}, "verified": "common practice, no source"}]}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	pipe := func(number int, fall float64) rule.Measurement {
		return rule.Measurement{Quantity: "pipe.gradient", Subject: rule.Subject{Of: rule.Piece, Piece: message.Numbered{ID: "piece.pipe", Number: number}}, Value: fall}
	}
	for _, f := range p.Judge([]rule.Measurement{pipe(1, 1.0/50), pipe(3, 1.0/60)}) {
		fmt.Println(f.Rule.Severity, "–", f.Measurement.Subject, "–", f.Rule.Subject)
		fmt.Println("measured", f.Measured(unit.Metric), "–", f.LimitText(unit.Metric))
	}
	// Output:
	// stop – pipe 3 – Pipe too flat
	// measured 1:60 (16.7 mm/m) – at least 1:55.6 (18 mm/m)
}
