// Package version tells which Underfall this is.
package version

import (
	"runtime/debug"
	"strings"
	"time"

	"underfall/app/words"
	"underfall/geometry/message"
)

// Of tells which Underfall this is, as far as the build has recorded it.
func Of(b words.Book) string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		info = &debug.BuildInfo{}
	}
	return text(info, b)
}

// text is the version, the revision and the compiler of a build.
func text(info *debug.BuildInfo, b words.Book) string {
	version := info.Main.Version
	if version == "" || version == "(devel)" {
		version = b.Text("app.underfall-version-not-recorded")
	} else {
		version = "Underfall " + version
	}
	parts := []string{version}
	set := map[string]string{}
	for _, s := range info.Settings {
		set[s.Key] = s.Value
	}
	if r := set["vcs.revision"]; r != "" {
		if len(r) > 12 {
			r = r[:12]
		}
		r = b.Say(message.Of("app.revision", message.Name("revision", r)))
		if when := set["vcs.time"]; len(when) > len(time.DateOnly) {
			r += " " + b.Say(message.Of("app.revision-of", message.Name("date", when[:len(time.DateOnly)])))
		}
		if set["vcs.modified"] == "true" {
			r += " " + b.Text("app.with-changes")
		}
		parts = append(parts, r)
	}
	if info.GoVersion != "" {
		parts = append(parts, b.Say(message.Of("app.built-with", message.Name("compiler", info.GoVersion))))
	}
	return strings.Join(parts, ", ")
}
