package clash_test

import (
	"testing"

	"underfall/geometry/clash"
)

// Every two kinds have one row that says how they are meant to lie to each other,
// a clearance only where they are apart.
func TestTheTableIsWhole(t *testing.T) {
	seen := map[[2]clash.Kind]int{}
	for _, p := range clash.Pairs() {
		if p.Meant == clash.Unsaid {
			t.Errorf("%s and %s: the row says nothing", p.A, p.B)
		}
		if p.Meant != clash.Apart && (p.ClearMM != 0 || p.Through) || p.ClearMM < 0 {
			t.Errorf("%s and %s are not apart, yet have a clearance or pass through: %+v", p.A, p.B, p)
		}
		seen[[2]clash.Kind{min(p.A, p.B), max(p.A, p.B)}]++
	}
	names := map[string]bool{}
	for a := range clash.Kind(clash.Kinds) {
		names[a.String()] = true
		for b := a; int(b) < clash.Kinds; b++ {
			if n := seen[[2]clash.Kind{a, b}]; n != 1 {
				t.Errorf("%s and %s have %d rows", a, b, n)
			}
		}
	}
	if len(names) != 13 {
		t.Errorf("%d names for 13 kinds", len(names))
	}
	table := clash.TableOf(clash.Pairs())
	if p, q := table[clash.Joist][clash.Pipe], table[clash.Pipe][clash.Joist]; p != q || p.ClearMM != 3 || !p.Through {
		t.Errorf("a pipe by a joist: %+v, the other way round %+v", p, q)
	}
	if p := clash.TableOf(nil)[clash.Trap][clash.Wall]; p.Meant != clash.Unsaid {
		t.Errorf("an empty table says %+v", p)
	}
}
