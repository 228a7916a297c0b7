package app

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// What a job is made of has its words: groups, parameters with what there is to know
// of them, choices.
func TestTheJobHasItsWords(t *testing.T) {
	b := british(t)
	for _, id := range job.IDs() {
		// A thing of a list takes its number, a wall its letter.
		if b.Say(message.Of(id, message.No("n", 1), message.Wall("wall", 1))) == "" {
			t.Errorf("%s says nothing", id)
		}
	}
}
