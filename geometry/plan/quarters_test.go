package plan

import "testing"

// A quarter clockwise leads what points up, (0, 1), to the right, (1, 0), and what points to the right down, (0, −1);
// as cos −90° is 0 and sin −90° is −1. Four of them are none, and every turn has one that takes it back.
func TestQuarters(t *testing.T) {
	v := Point{3, 7}
	for q, want := range map[Quarters]Point{0: {3, 7}, 1: {7, -3}, 2: {-3, -7}, 3: {-7, 3}, 4: {3, 7}, -1: {-7, 3}, -6: {-3, -7}, 9: {7, -3}} {
		if got := q.Turned(v); got != want {
			t.Errorf("%d quarters: %v, want %v", q, got, want)
		}
		if got := q.Back().Turned(q.Turned(v)); got != v {
			t.Errorf("%d quarters and back: %v", q, got)
		}
		if got := Quarters(1).And(q).Turned(v); got != q.Turned(Quarters(1).Turned(v)) {
			t.Errorf("one quarter and %d: %v", q, got)
		}
	}
}
