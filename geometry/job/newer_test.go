package job_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// later is the starting job as a later version of the format might have it: version + 1, and what a change
// makes of it.
func later(t *testing.T, change func(file map[string]any)) []byte {
	t.Helper()
	data, err := job.New().Marshal()
	if err != nil {
		t.Fatal(err)
	}
	var file map[string]any
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	file["version"] = job.Version + 1
	change(file)
	if data, err = json.Marshal(file); err != nil {
		t.Fatal(err)
	}
	return data
}

// in is a group of a file.
func in(file map[string]any, names ...string) map[string]any {
	for _, n := range names {
		file = file[n].(map[string]any)
	}
	return file
}

// What this version has no name for is left out, what is not of its list stood in for, and both are named;
// all else is as it was.
func TestNewerIsReadAsFarAsItIsUnderstood(t *testing.T) {
	for name, c := range map[string]struct {
		change func(map[string]any)
		unread []string // in any order
		as     func(*job.Job)
	}{
		"nothing new": {func(map[string]any) {}, nil, func(*job.Job) {}},
		"unknown names": {func(f map[string]any) {
			f["towelRail"] = map[string]any{"heightMM": 900}
			in(f, "shower")["seat"] = true
			f["room"].(map[string]any)["walls"].([]any)[1].(map[string]any)["hum"] = 3
		}, []string{`open.left-out{name: "hum", place: place.wall{wall: 2}}`, `open.left-out{name: "seat", place: place.shower}`, `open.left-out{name: "towelRail", place: place.job}`}, func(*job.Job) {}},
		"unknown value of a list": {func(f map[string]any) { in(f, "room")["edge"] = "hump" },
			[]string{`open.stood-in{place: place.open-edge, value: "hump"}`}, func(j *job.Job) {
				j.Room.Edge = job.EdgeStep
				j.SetStanding("room.edge", job.Assumed)
			}},
		"standing of what is left out": {func(f map[string]any) {
			f["seat"] = 1
			f["standings"] = map[string]any{"seat": "held", "shower.depthMM": "held", "shower.widthMM": "doubted"}
		}, []string{`open.left-out{name: "seat", place: place.job}`, `open.left-out{name: "standings", place: place.parameter{station: station.shower, parameter: parameter.shower.widthMM}}`},
			func(j *job.Job) { j.SetStanding("shower.depthMM", job.Held) }},
	} {
		j, unread, err := job.ParseNewer(later(t, c.change))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var got []string
		for _, m := range unread {
			got = append(got, m.String())
		}
		want := job.New()
		c.as(&want)
		a, _ := want.Marshal()
		b, _ := j.Marshal()
		if string(a) != string(b) || strings.Join(got, "\n") != strings.Join(c.unread, "\n") {
			t.Errorf("%s: unread\n%s\nread %s", name, strings.Join(got, "\n"), b)
		}
	}
}

// Where too little is understood the error says which version the file has and which is read.
func TestNewerThatIsNotUnderstood(t *testing.T) {
	for name, data := range map[string][]byte{
		"a group for a number":   later(t, func(f map[string]any) { in(f, "shower")["depthMM"] = map[string]any{"front": 900} }),
		"without a room":         later(t, func(f map[string]any) { delete(f, "room") }),
		"an unknown kind within": later(t, func(f map[string]any) { in(f, "waste", "exit")["level"] = map[string]any{"kind": "tidal"} }),
		"nothing of a job":       []byte(`{"version": 99, "layers": [1, 2, {"a": null}]}`),
	} {
		_, unread, err := job.ParseNewer(data)
		says := message.OfError(err).String()
		if !errors.Is(err, job.ErrNewer) || !strings.HasPrefix(says, "open.newer{version: ") || len(unread) > 0 {
			t.Errorf("%s: %v, %v", name, says, unread)
		}
		if !job.IsNewer(data) {
			t.Errorf("%s: counts as no newer job", name)
		}
	}
	for _, garbage := range []string{"", "{", `{"version": 99`, "[1]", `{"version": "new"}`, "null", `{"a": 1}`} {
		if _, _, err := job.ParseNewer([]byte(garbage)); err == nil || errors.Is(err, job.ErrNewer) || job.IsNewer([]byte(garbage)) {
			t.Errorf("%q: %v", garbage, err)
		}
	}
}
