package version

import (
	"runtime/debug"
	"testing"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

func TestVersionText(t *testing.T) {
	settings := func(pairs ...string) (out []debug.BuildSetting) {
		for i := 0; i < len(pairs); i += 2 {
			out = append(out, debug.BuildSetting{Key: pairs[i], Value: pairs[i+1]})
		}
		return out
	}
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	british := shelf.Book(words.British, unit.Metric, func(m message.Message) { t.Errorf("no words for %v", m) })
	for _, c := range []struct {
		info debug.BuildInfo
		want string
	}{
		{debug.BuildInfo{}, "Underfall, version not recorded"},
		{debug.BuildInfo{GoVersion: "go1.26.1", Main: debug.Module{Version: "(devel)"}}, "Underfall, version not recorded, built with go1.26.1"},
		{debug.BuildInfo{GoVersion: "go1.26.1", Main: debug.Module{Version: "v1.2.3"}, Settings: settings("GOOS", "linux",
			"vcs.revision", "0123456789abcdef0123", "vcs.time", "2026-03-04T05:06:07Z", "vcs.modified", "false")},
			"Underfall v1.2.3, revision 0123456789ab of 2026-03-04, built with go1.26.1"},
		{debug.BuildInfo{Main: debug.Module{Version: "v1.2.3"}, Settings: settings("vcs.revision", "0123", "vcs.modified", "true")},
			"Underfall v1.2.3, revision 0123 with changes"},
	} {
		if got := text(&c.info, british); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
