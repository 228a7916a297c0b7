package message_test

import (
	"errors"
	"fmt"
	"testing"

	"underfall/geometry/message"
)

// What a message shows to whoever mends the program: its id, and its values by their
// names in full.
func TestMessagesAreShown(t *testing.T) {
	for want, m := range map[string]message.Message{
		"":                               {},
		"a.b":                            message.Of("a.b"),
		"a.b{n: 3}":                      message.Of("a.b", message.N("n", 3)),
		"a.b{n: 3, at: 12.34567 mm}":     message.Of("a.b", message.N("n", 3)).With(message.MM("at", 12.34567)),
		`a{own: "so", in: b{number: 7}}`: message.Of("a", message.Name("own", "so"), message.In("in", message.Numbered{ID: "b", Number: 7}.Message())),
	} {
		if got := m.String(); got != want || m.IsZero() != (want == "") {
			t.Errorf("%q, nothing to say %v, want %q", got, m.IsZero(), want)
		}
	}
}

// A message keeps what it says when another is made of it.
func TestWithLeavesTheMessage(t *testing.T) {
	m := message.Of("a", message.N("n", 1), message.N("k", 2))
	short := message.Message{ID: m.ID, Args: m.Args[:1]}
	more := short.With(message.N("other", 9))
	if m.String() != "a{n: 1, k: 2}" || more.String() != "a{n: 1, other: 9}" {
		t.Errorf("%s, %s", m, more)
	}
}

// Lines are said one before the rest.
func TestLines(t *testing.T) {
	a, b, c := message.Of("a"), message.Of("b"), message.Of("c")
	for want, got := range map[string]message.Message{
		"": message.Lines(), "a": message.Lines(a), "lines{first: a, rest: b}": message.Lines(a, b),
		"lines{first: a, rest: lines{first: b, rest: c}}": message.Lines(a, b, c),
	} {
		if got.String() != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// An error says what it is for people; one around it says the same, one without words
// its own text, and several each what it is.
func TestErrorsSayWhatTheyAre(t *testing.T) {
	plain := errors.New("disk full")
	told := message.Fail("file.lost", message.Name("name", "x"))
	for name, c := range map[string]struct {
		err         error
		shown, says string
	}{
		"its own":             {told, `file.lost{name: "x"}`, `file.lost{name: "x"}`},
		"over one without":    {message.Wrap(plain, "save"), `save{why: own{text: "disk full"}} (disk full)`, `save{why: own{text: "disk full"}}`},
		"within another":      {fmt.Errorf("while saving: %w", told), `while saving: file.lost{name: "x"}`, `file.lost{name: "x"}`},
		"none":                {plain, "disk full", `own{text: "disk full"}`},
		"none within another": {fmt.Errorf("while saving: %w", plain), "while saving: disk full", `own{text: "while saving: disk full"}`},
		"several":             {errors.Join(told, plain), "file.lost{name: \"x\"}\ndisk full", `lines{first: file.lost{name: "x"}, rest: own{text: "disk full"}}`},
	} {
		if c.err.Error() != c.shown {
			t.Errorf("%s: shown as %q, want %q", name, c.err.Error(), c.shown)
		}
		if got := message.OfError(c.err).String(); got != c.says {
			t.Errorf("%s: says %s, want %s", name, got, c.says)
		}
	}
	if !message.OfError(nil).IsZero() {
		t.Error("no error says something")
	}
	if !errors.Is(message.Wrap(plain, "save"), plain) {
		t.Error("what lies behind an error is lost")
	}
}
