package assets

import (
	_ "embed"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// cmd/notices writes this file.
//
//go:embed notices.txt
var noticesText string

// NoticesText are the licences of Underfall and of the software and the fonts
// of others inside it, as one text for people.
func NoticesText() string { return noticesText }

// Notice is one piece of software or one font inside Underfall, with the texts
// its authors ask to be passed on.
type Notice struct {
	Of      string // OwnName, a module's path, or a name and what it came in
	Version string // the module's; empty for Underfall and what comes with the Go compiler
	Texts   []NoticeText
}

// OwnName is what the notice of Underfall itself is of; it stands first.
const OwnName = "Underfall"

// NoticeText is one of a notice's texts.
type NoticeText struct {
	Source string // the file it comes from, within the module
	Text   string
}

// Notices are the notices shipped, by name.
func Notices() ([]Notice, error) {
	n, err := ParseNotices(noticesText)
	if err != nil {
		return nil, fmt.Errorf("reading the notices of others: %w", err)
	}
	return n, nil
}

const (
	// noticeMark begins the lines that say what the text under them holds for.
	noticeMark = "■ "
	noticeGap  = " | "

	noticesHead = `The licences of Underfall and of the software and fonts of others inside it.
The lines with ■ say what the text under them holds for, by name, version and
the file it comes from. Written by ./cmd/dev notices.
`
)

// FormatNotices writes notices as one text in which every licence stands once.
// It fails for a notice that could not be read back.
func FormatNotices(notices []Notice) (string, error) {
	notices = sortedNotices(notices)
	under := map[string][]string{} // the lines over each text
	var order []string
	for _, n := range notices {
		if len(n.Texts) == 0 {
			return "", fmt.Errorf("%s %s has no text", n.Of, n.Version)
		}
		for _, t := range n.Texts {
			text := tidyNotice(t.Text)
			if text == "" {
				return "", fmt.Errorf("%s %s: %s is empty", n.Of, n.Version, t.Source)
			}
			if _, ok := under[text]; !ok {
				order = append(order, text)
			}
			under[text] = append(under[text], noticeMark+n.Of+noticeGap+n.Version+noticeGap+t.Source+"\n")
		}
	}
	var b strings.Builder
	b.WriteString(noticesHead)
	for _, text := range order {
		b.WriteString("\n\n" + strings.Join(under[text], "") + "\n" + text + "\n")
	}
	back, err := ParseNotices(b.String())
	if err != nil {
		return "", err
	}
	if !slices.EqualFunc(back, notices, equalNotices) {
		return "", errors.New("the notices do not read back the same: a name or a text holds what separates them")
	}
	return b.String(), nil
}

// ParseNotices reads what FormatNotices wrote.
func ParseNotices(s string) ([]Notice, error) {
	_, rest, ok := strings.Cut("\n"+s, "\n"+noticeMark)
	if !ok {
		return nil, errors.New("there is no notice in the text")
	}
	var out []Notice
	at := map[[2]string]int{}
	var over []string
	var text []string
	end := func() error {
		body := tidyNotice(strings.Join(text, "\n"))
		if body == "" {
			return fmt.Errorf("%q has no text under it", strings.Join(over, "; "))
		}
		for _, line := range over {
			fields := strings.Split(line, noticeGap)
			if len(fields) != 3 || fields[0] == "" {
				return fmt.Errorf("%q is not a name, a version and a file", line)
			}
			key := [2]string{fields[0], fields[1]}
			i, known := at[key]
			if !known {
				i = len(out)
				at[key] = i
				out = append(out, Notice{Of: fields[0], Version: fields[1]})
			}
			out[i].Texts = append(out[i].Texts, NoticeText{fields[2], body})
		}
		over, text = nil, nil
		return nil
	}
	for line := range strings.SplitSeq(noticeMark+rest, "\n") {
		name, marked := strings.CutPrefix(line, noticeMark)
		switch {
		case !marked:
			text = append(text, line)
			continue
		case len(text) > 0:
			if err := end(); err != nil {
				return nil, err
			}
		}
		over = append(over, name)
	}
	if err := end(); err != nil {
		return nil, err
	}
	return sortedNotices(out), nil
}

// tidyNotice is a text without what does not show: other ends of line, blanks
// at the ends of lines, empty lines around it.
func tidyNotice(s string) string {
	lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n", "\f", "\n", "\ufeff", "").Replace(s), "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " \t")
	}
	return strings.Trim(strings.Join(lines, "\n"), "\n")
}

// sortedNotices puts notices and their texts into the order they are shown in.
func sortedNotices(notices []Notice) []Notice {
	out := slices.Clone(notices)
	for i, n := range out {
		texts := slices.Clone(n.Texts)
		for k, t := range texts {
			texts[k].Text = tidyNotice(t.Text)
		}
		slices.SortFunc(texts, func(a, b NoticeText) int {
			return strings.Compare(a.Source+"\x00"+a.Text, b.Source+"\x00"+b.Text)
		})
		out[i].Texts = texts
	}
	key := func(n Notice) string {
		if n.Of == OwnName {
			return ""
		}
		return strings.ToLower(n.Of) + "\x00" + n.Of + "\x00" + n.Version
	}
	slices.SortStableFunc(out, func(a, b Notice) int { return strings.Compare(key(a), key(b)) })
	return out
}

func equalNotices(a, b Notice) bool {
	return a.Of == b.Of && a.Version == b.Version && slices.Equal(a.Texts, b.Texts)
}
