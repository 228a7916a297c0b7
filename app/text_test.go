package app

import (
	"testing"

	"underfall/geometry/job"
)

// What a job is made of has its words: groups, parameters with what there is to know
// of them, choices.
func TestTheJobHasItsWords(t *testing.T) {
	b := british(t)
	for _, id := range job.IDs() {
		if b.Text(id) == "" {
			t.Errorf("%s says nothing", id)
		}
	}
}
