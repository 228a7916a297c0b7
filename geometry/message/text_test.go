package message_test

import (
	"testing"
	"unicode/utf8"

	"underfall/geometry/message"
)

// U+0085 and U+009B are control characters, U+061C, U+200E, U+202E and U+2069 turn the
// direction (Unicode 16); U+200B, U+00AD and U+202F do not, and those beside the limits
// are plain.
func TestUnseen(t *testing.T) {
	for _, r := range "\x00\x1f\n\t\x7f\u0080\u0085\u009b\u009f\u061c\u200e\u200f\u2028\u2029\u202a\u202e\u2066\u2069" + string(utf8.RuneError) {
		if !message.Unseen(r) {
			t.Errorf("%U is said to be seen", r)
		}
	}
	for _, r := range " ~\u00a0\u00ad\u061b\u061d\u200b\u200d\u2010\u2027\u202f\u2065\u206aé☂" {
		if message.Unseen(r) {
			t.Errorf("%U is said to be unseen", r)
		}
	}
}
