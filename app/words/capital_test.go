package words_test

import (
	"testing"

	"underfall/app/words"
)

// A text gets a large first letter, whatever letter that is; of none there is nothing to make large.
func TestCapital(t *testing.T) {
	for text, want := range map[string]string{"": "", "pipe 1": "Pipe 1", "élan": "Élan", "“a” is": "“a” is", "3 clear": "3 clear"} {
		if got := words.Capital(text); got != want {
			t.Errorf("%q becomes %q, want %q", text, got, want)
		}
	}
}
