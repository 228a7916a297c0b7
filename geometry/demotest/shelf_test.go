package demotest_test

import (
	"testing"

	"underfall/geometry/demotest"
)

// The parts that tests work with could be sold: their numbers hang together.
func TestShelfIsSound(t *testing.T) {
	s := demotest.Shelf()
	if err := s.Check(); err != nil {
		t.Error(err)
	}
}
