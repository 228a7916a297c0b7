package assets

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The notices shipped can be read and hold what Underfall surely has inside.
func TestNoticesShipped(t *testing.T) {
	notices, err := Notices()
	if err != nil {
		t.Fatal(err)
	}
	for of, says := range map[string]string{
		"Underfall":                                                   "The Underfall authors",
		"fyne.io/fyne/v2":                                             "Fyne.io developers",
		"Go standard library and runtime":                             "Copyright 2009 The Go Authors",
		"Noto Sans Regular, font in fyne.io/fyne/v2":                  "SIL OPEN FONT LICENSE",
		"DejaVu Sans Mono for Powerline, font in fyne.io/fyne/v2":     "Bitstream Vera",
		"Inter Regular, font in fyne.io/fyne/v2":                      "The Inter Project Authors",
		"EmojiOne, font in fyne.io/fyne/v2":                           "Emoji art supplied by EmojiOne",
		"github.com/go-gl/glfw/v3.4/glfw":                             "Marcus Geelnard",
		"github.com/g3n/engine":                                       "The Khronos Group Inc.",
		"JTS Topology Suite, in github.com/peterstace/simplefeatures": "Eclipse Distribution License - v 1.0",
		"Material icons, in fyne.io/fyne/v2":                          "Apache License",
		"github.com/rclancey/go-earcut":                               "ISC License",
	} {
		i := slices.IndexFunc(notices, func(n Notice) bool { return n.Of == of })
		if i < 0 {
			t.Errorf("there is no notice of %s", of)
			continue
		}
		if !slices.ContainsFunc(notices[i].Texts, func(x NoticeText) bool { return strings.Contains(x.Text, says) }) {
			t.Errorf("the notice of %s does not say %q", of, says)
		}
	}
}

// A text that several hold stands once, over it all of them.
func TestFormatNoticesGroups(t *testing.T) {
	got, err := FormatNotices([]Notice{
		{"b", "v2", []NoticeText{{"LICENSE", "be kind  \r\nto all\r\n\r\n"}}},
		{"a", "v1", []NoticeText{{"COPYING", "be kind\nto all"}, {"NOTICE", "so there"}}},
	})
	want := noticesHead + "\n\n■ a | v1 | COPYING\n■ b | v2 | LICENSE\n\nbe kind\nto all\n\n\n■ a | v1 | NOTICE\n\nso there\n"
	if err != nil || got != want {
		t.Errorf("%v, %q, want %q", err, got, want)
	}
}

func TestFormatNoticesRefuses(t *testing.T) {
	for name, n := range map[string]Notice{
		"no text":          {"a", "v1", nil},
		"empty text":       {"a", "v1", []NoticeText{{"LICENSE", " \n"}}},
		"mark in the text": {"a", "v1", []NoticeText{{"LICENSE", "one\n■ two | v2 | x\nthree"}}},
		"gap in the name":  {"a | b", "v1", []NoticeText{{"LICENSE", "one"}}},
	} {
		if s, err := FormatNotices([]Notice{n}); err == nil {
			t.Errorf("%s: written as %q", name, s)
		}
	}
}

func TestParseNoticesRefuses(t *testing.T) {
	for name, s := range map[string]string{
		"empty":       "",
		"no notice":   "words\nand more",
		"no text":     "■ a | v1 | LICENSE\n\n",
		"no version":  "■ a | LICENSE\n\ntext",
		"no name":     "■  | v1 | LICENSE\n\ntext",
		"second bare": "■ a | v1 | LICENSE\n\ntext\n■ b | v1 | LICENSE\n",
	} {
		if n, err := ParseNotices(s); err == nil {
			t.Errorf("%s: read as %v", name, n)
		}
	}
}

// Whatever notices there are, they read back the same, in any order.
func TestNoticesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-z■|]{1,8}( [a-z]{1,5}){0,2}`)
		notice := rapid.Custom(func(t *rapid.T) Notice {
			n := Notice{Of: word.Draw(t, "of"), Version: rapid.StringMatching(`(v[0-9]\.[0-9])?`).Draw(t, "version")}
			for _, s := range rapid.SliceOfNDistinct(word, 1, 3, rapid.ID[string]).Draw(t, "sources") {
				lines := rapid.SliceOfN(rapid.StringMatching(`( {0,3}[A-Za-z.]{1,6}){0,4}`), 1, 5).Draw(t, "lines")
				n.Texts = append(n.Texts, NoticeText{s, "x\n" + strings.Join(lines, "\n")})
			}
			return n
		})
		key := func(n Notice) string { return n.Of + " " + n.Version }
		notices := rapid.SliceOfNDistinct(notice, 1, 6, key).Draw(t, "notices")
		s, err := FormatNotices(notices)
		if err != nil {
			t.Fatal(err)
		}
		slices.Reverse(notices)
		if again, err := FormatNotices(notices); err != nil || again != s {
			t.Fatalf("in another order: %v, %q, want %q", err, again, s)
		}
		back, err := ParseNotices(s)
		if err != nil || !slices.EqualFunc(back, sortedNotices(notices), equalNotices) {
			t.Fatalf("%v: %v, want %v", err, back, notices)
		}
	})
}

// Nothing that can be read is lost when written again.
func FuzzParseNotices(f *testing.F) {
	f.Add("■ a | v1 | LICENSE\n■ b |  | x\n\ntext\n\n■ a | v1 | NOTICE\nmore")
	f.Add("head\n■ a | v1 | LICENSE\n\n■")
	f.Fuzz(func(t *testing.T, s string) {
		notices, err := ParseNotices(s)
		if err != nil {
			return
		}
		text, err := FormatNotices(notices)
		if err != nil {
			t.Fatalf("%q cannot be written again: %v", s, err)
		}
		back, err := ParseNotices(text)
		if err != nil || !slices.EqualFunc(back, notices, equalNotices) {
			t.Fatalf("%v: %v, want %v", err, back, notices)
		}
	})
}
