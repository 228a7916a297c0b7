package plan

import "math"

// Without are intervals without what others take of them.
func Without(from, take []Interval) []Interval {
	for _, t := range take {
		var left []Interval
		for _, iv := range from {
			if a := (Interval{From: iv.From, To: math.Min(iv.To, t.From)}); a.To > a.From {
				left = append(left, a)
			}
			if b := (Interval{From: math.Max(iv.From, t.To), To: iv.To}); b.To > b.From {
				left = append(left, b)
			}
		}
		from = left
	}
	return from
}
