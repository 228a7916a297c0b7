package rule_test

import (
	"fmt"

	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// Is a pipe flat enough to stop the job? 1:60 is 16.7 mm on a metre, under the
// 18 that the rule asks for; 1:50 is 20.
func ExamplePack_Judge() {
	p, err := rule.ParsePack([]byte(`{"region": "XX", "edition": "2026-11", "floorLoad": {"kNM2": 1.5, "source": {"mark": "common-practice"}}, "rules": [{
		"id": "too-flat", "quantity": "pipe.gradient", "compare": "at-least", "limit": 0.018,
		"severity": "stop", "source": {"mark": "derived"}}]}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	pipe := func(number int, fall float64) rule.Measurement {
		return rule.Measurement{Quantity: "pipe.gradient", Subject: rule.Subject{Of: rule.Piece, Piece: message.Numbered{ID: "piece.pipe", Number: number}}, Value: fall}
	}
	for _, f := range p.Judge([]rule.Measurement{pipe(1, 1.0/50), pipe(3, 1.0/60)}) {
		fmt.Println(f.Rule.Severity, "–", f.Measurement.Subject, "–", f.Rule.Heading().ID)
		fmt.Println("measured", f.Value(), "–", f.Rule.Compare, f.Limit())
	}
	// Output:
	// stop – pipe 3 – rule.too-flat.heading
	// measured 0.016666666666666666 falling – at-least 0.018 falling
}
