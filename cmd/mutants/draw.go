package main

import (
	"math/rand/v2"
	"sync"
)

// draw gives out mutants in an order that follows from the seed. A mutant that
// does not compile is passed over: it would tell nothing about the tests.
type draw struct {
	compiles func(mutant) bool

	mu   sync.Mutex
	left []mutant
}

func newDraw(all []mutant, seed uint64, compiles func(mutant) bool) *draw {
	d := &draw{compiles: compiles}
	for _, i := range rand.New(rand.NewPCG(seed, 0)).Perm(len(all)) {
		d.left = append(d.left, all[i])
	}
	return d
}

// next is the next mutant that compiles; ok is false when there is none left.
func (d *draw) next() (m mutant, ok bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for len(d.left) > 0 {
		m, d.left = d.left[0], d.left[1:]
		if d.compiles(m) {
			return m, true
		}
	}
	return mutant{}, false
}
