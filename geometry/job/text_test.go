package job_test

import (
	"os"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// What cannot be seen goes, what ends a line stays where there may be lines.
// U+0085 and U+009B are control characters, U+200E, U+202E and U+2067 turn the
// direction (Unicode 16); U+200B and U+00AD do not.
func TestVisible(t *testing.T) {
	for text, want := range map[string][2]string{
		"plain é ☂":                        {"plain é ☂", "plain é ☂"},
		"two\nlines":                       {"two\nlines", "two lines"},
		"two\r\nlines":                     {"two\nlines", "two lines"},
		"two\rlines\n":                     {"two\nlines\n", "two lines "},
		"a\ttab":                           {"a tab", "a tab"},
		"b\x07e\x00l\x1bl\x7f\u0085\u009b": {"bell", "bell"},
		"\u200eturn\u202e\u2067ed":         {"turned", "turned"},
		"line\u2028end\u2029":              {"lineend", "lineend"},
		"broken\xff":                       {"broken", "broken"},
		"soft\u00adand\u200bnone":          {"soft\u00adand\u200bnone", "soft\u00adand\u200bnone"},
		"":                                 {"", ""},
	} {
		if got := [2]string{job.Visible(text, true), job.Visible(text, false)}; got != want {
			t.Errorf("%q is %q with lines and without, want %q", text, got, want)
		}
	}
}

// Every kind of wrong value in a file is told: where, what belongs
// there, what is there.
func TestWrongValuesAreWorded(t *testing.T) {
	good, err := job.New().Marshal()
	if err != nil {
		t.Fatal(err)
	}
	text := string(good)
	const height = "place.parameter{station: station.room, parameter: parameter.room.heightMM}, " +
		"what: problem.wrong-kind{belongs: kind.number, found: "
	for _, c := range []struct{ from, to, want string }{
		{`"heightMM": 2400`, `"heightMM": "high"`, height + "kind.words}"},
		{`"heightMM": 2400`, `"heightMM": true`, height + "kind.yes-or-no}"},
		{`"heightMM": 2400`, `"heightMM": {}`, height + "kind.group}"},
		{`"heightMM": 2400`, `"heightMM": []`, height + "kind.list}"},
		{`"name": "New shower"`, `"name": 5`, "place.name, what: problem.wrong-kind{belongs: kind.words, found: kind.number}"},
		{`"accessible": false`, `"accessible": 1`, "place.job, what: problem.wrong-kind{belongs: kind.yes-or-no, found: kind.number}"},
		{`"outline": [`, `"outline": 5, "x": [`, "place.corners, what: problem.wrong-kind{belongs: kind.list, found: kind.number}"},
		{`"floor": {`, `"floor": 5, "x": {`, "place.floor, what: problem.wrong-kind{belongs: kind.group, found: kind.number}"},
		{`"outsideGroundMM": -150`, `"outsideGroundMM": "low"`, "place.walls, what: problem.wrong-kind{belongs: kind.number, found: kind.words}"},
		{`"version": 11`, `"version": 3.5`, `place.version, what: problem.wrong-kind{belongs: kind.whole-number, found: own{text: "3.5"}}`},
		{`"version": 11`, `"version": "3"`, "place.version, what: problem.wrong-kind{belongs: kind.whole-number, found: kind.words}"},
		{`"version": 11`, `"version": 0`, "open.unknown-version{version: 0}"},
		{`"version": 11`, `"version": -1`, "open.unknown-version{version: -1}"},
		{`"region": "UK"`, `"realm": "UK"`, `open.unknown-name{name: "realm"}`},
		{`"kind": "free"`, `"kind": "free", "rise": 1`, `open.unknown-name{name: "rise"}`},
		{`"kind": "free"`, `"kind": "low"`, `place.exit-level, what: problem.unknown-choice{value: "low"`},
	} {
		if !strings.Contains(text, c.from) {
			t.Fatalf("the starting job has no %s", c.from)
		}
		_, err := job.Parse([]byte(strings.Replace(text, c.from, c.to, 1)))
		if says := message.OfError(err).String(); !strings.Contains(says, c.want) {
			t.Errorf("%s: it says %s, want %q", c.to, says, c.want)
		}
	}
	// The place of the damage is counted in characters of the file from the first.
	if _, err := job.Parse([]byte(`{"a"?1}`)); err == nil || !strings.Contains(err.Error(), "open.damaged{at: 5}") {
		t.Errorf("%v", err)
	}
}

// A file of 4 MiB is read, a longer one is not.
func TestLargestFile(t *testing.T) {
	good, err := job.New().Marshal()
	if err != nil {
		t.Fatal(err)
	}
	padded := append(good, []byte(strings.Repeat(" ", 4<<20-len(good)))...)
	if _, err := job.Parse(padded); err != nil {
		t.Errorf("a file of 4 MiB: %v", err)
	}
	if _, err := job.Parse(append(padded, ' ')); err == nil || !strings.Contains(err.Error(), "open.too-large") {
		t.Errorf("a file of 4 MiB and a byte: %v", err)
	}
}

// What an earlier version of the format did not have is refused in its files too.
func TestOldFilesWithMoreAreRefused(t *testing.T) {
	for _, version := range []string{"version-1", "version-2", "version-3", "version-4", "version-5", "version-6"} {
		data, err := os.ReadFile("testdata/" + version + "/1-slab-side-wall.json")
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Replace(string(data), `"region"`, `"realm"`, 1)
		if _, err := job.Parse([]byte(text)); err == nil || !strings.Contains(err.Error(), `open.unknown-name{name: "realm"}`) {
			t.Errorf("%s: %v", version, err)
		}
	}
}
