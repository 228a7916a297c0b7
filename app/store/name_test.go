package store

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestSafeName(t *testing.T) {
	for called, want := range map[string]string{
		"Loft room":               "Loft room",
		"Bad für Käthe (2. OG)":   "Bad für Käthe (2. OG)",
		"a/b":                     "a-b",
		`C:\jobs\a`:               "C--jobs-a",
		"..":                      "shower",
		".":                       "shower",
		"../../etc/passwd":        "-..-etc-passwd",
		".hidden":                 "hidden",
		"ends with dots...":       "ends with dots",
		"":                        "shower",
		" \t\n ":                  "shower",
		"///":                     "shower",
		"a\x00b\x1b[31mc":         "ab[31mc",
		"two\nlines":              "two lines",
		"gpj.\u202ejpg":           "gpj.jpg",
		"\xff\xfe":                "\uFFFD",
		"CON":                     "CON-",
		"con.txt":                 "con.txt-",
		"Lpt1":                    "Lpt1-",
		"COM10":                   "COM10",
		"Console":                 "Console",
		strings.Repeat("ä", 300):  strings.Repeat("ä", 100),
		strings.Repeat("a ", 300): strings.TrimRight(strings.Repeat("a ", 100), " "),
	} {
		if got := SafeName(called, "shower"); got != want {
			t.Errorf("%q becomes %q, want %q", called, got, want)
		}
	}
}

// Whatever a job is called, the name is no path, fits a disk and stays as it is
// when made safe again.
func TestSafeNameAlwaysIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		called := rapid.OneOf(rapid.String(), rapid.StringMatching(`[ ./\\a-cCONPRN1\x00-\x1f\x{202a}-\x{202e}]*`)).Draw(t, "called")
		name := SafeName(called, "shower")
		switch {
		case name == "" || len(name) > longestName+1 || !utf8.ValidString(name):
			t.Fatalf("%q becomes %q", called, name)
		case strings.ContainsAny(name, "/\\\x00\n\x1b") || strings.HasPrefix(name, ".") || strings.HasSuffix(name, "."):
			t.Fatalf("%q becomes %q", called, name)
		case SafeName(name, "shower") != name:
			t.Fatalf("%q becomes %q, and that %q", called, name, SafeName(name, "shower"))
		}
	})
}

func TestWithEnding(t *testing.T) {
	for name, want := range map[string]string{"a": "a.json", "a.json": "a.json", "A.JSON": "A.JSON", "v1.2": "v1.2.json", ".json": ".json.json", "a.": "a..json"} {
		if got := WithEnding(name, ".json"); got != want {
			t.Errorf("%q becomes %q, want %q", name, got, want)
		}
	}
}
