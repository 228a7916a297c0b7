package app

import (
	"slices"
	"testing"
)

func TestWhatWaitsIsRunAtOnceAndInOrder(t *testing.T) {
	var posted []func()
	var ran []int
	at := &together{post: func(f func()) { posted = append(posted, f) }}
	for i := range 3 {
		at.do(func() {
			ran = append(ran, i)
			if i == 1 {
				at.do(func() { ran = append(ran, 9) })
			}
		})
	}
	if len(posted) != 1 {
		t.Fatalf("three functions that wait are handed over %d times, not once", len(posted))
	}
	posted[0]()
	if !slices.Equal(ran, []int{0, 1, 2}) {
		t.Fatalf("ran %v, not the three that waited, in order", ran)
	}
	if len(posted) != 2 {
		t.Fatalf("what one of them handed over was handed on %d times, not once", len(posted)-1)
	}
	posted[1]()
	if !slices.Equal(ran, []int{0, 1, 2, 9}) {
		t.Fatalf("ran %v, not what was handed over meanwhile last", ran)
	}
}
