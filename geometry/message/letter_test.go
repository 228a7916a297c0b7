package message_test

import (
	"testing"

	"underfall/geometry/message"
)

// Letters go from A to Z, then AA to AZ, BA …: 26 single ones and 26² double ones, 702 in all.
func TestLetters(t *testing.T) {
	for n, want := range map[message.Letter]string{1: "A", 2: "B", 26: "Z", 27: "AA", 28: "AB", 52: "AZ", 53: "BA", 702: "ZZ", 703: "AAA", 0: "–", -1: "–"} {
		if got := n.String(); got != want {
			t.Errorf("letter %d is %s, want %s", int(n), got, want)
		}
	}
	for c, want := range map[message.Corner]string{{2, 3}: "BC", {4, 1}: "DA", {26, 27}: "Z/AA"} {
		if got := c.String(); got != want {
			t.Errorf("a corner is %s, want %s", got, want)
		}
	}
}
