// Command notices writes assets/notices.txt: the licences of Underfall and of
// everything of others that is linked or embedded into it, on every system it may be
// built for. With -check it writes nothing and fails when the file is not up
// to date.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"underfall/assets"
)

func main() {
	check := flag.Bool("check", false, "only say what is out of date")
	flag.Parse()
	if err := run(*check); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run writes the notices, or checks the ones there are.
func run(check bool) error {
	out, err := exec.Command("go", "env", "GOMOD").Output()
	if err != nil {
		return fmt.Errorf("asking go for the module's folder: %w", err)
	}
	file := filepath.Join(filepath.Dir(strings.TrimSpace(string(out))), "assets", "notices.txt")
	packages, err := linkedPackages("underfall/cmd/underfall")
	if err != nil {
		return err
	}
	made, err := collect(packages)
	if err != nil {
		return err
	}
	text, err := assets.FormatNotices(made)
	if err != nil {
		return fmt.Errorf("writing %s: %w", file, err)
	}
	if !check {
		if !slices.ContainsFunc(made, hasGoLicence) {
			return errors.New("the Go compiler here came without its licence: write the notices with one from https://go.dev/dl")
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			return fmt.Errorf("writing the notices: %w", err)
		}
		fmt.Printf("%s: %d notices, %d kB\n", file, len(made), (len(text)+512)/1024)
		return nil
	}
	shipped, err := os.ReadFile(file)
	if err != nil {
		return fmt.Errorf("reading the notices: %w", err)
	}
	wrong, err := compare(string(shipped), text)
	if err != nil {
		return fmt.Errorf("comparing %s: %w", file, err)
	}
	if len(wrong) > 0 {
		return errors.New(strings.Join(wrong, "\n") + "\nrun ./cmd/dev notices")
	}
	return nil
}

// compare says what is wrong with the text shipped, given the text made now.
func compare(shipped, made string) ([]string, error) {
	s, err := assets.ParseNotices(shipped)
	if err != nil {
		return nil, err
	}
	m, err := assets.ParseNotices(made)
	if err != nil {
		return nil, err
	}
	return differences(s, m), nil
}

// hasGoLicence tells whether a notice is the compiler's, whole.
func hasGoLicence(n assets.Notice) bool {
	return n.Of == goName && slices.ContainsFunc(n.Texts, func(t assets.NoticeText) bool { return t.Source == goLicence })
}

// differences says what is wrong with the notices shipped, given what is
// linked. Of the compiler's own part only the licence must be the same: it
// differs from machine to machine.
func differences(shipped, linked []assets.Notice) []string {
	has := map[string]assets.Notice{}
	for _, n := range shipped {
		if other, twice := has[n.Of]; twice {
			return []string{fmt.Sprintf("%s is there as %s and as %s", n.Of, other.Version, n.Version)}
		}
		has[n.Of] = n
	}
	var out []string
	for _, n := range linked {
		s, ok := has[n.Of]
		delete(has, n.Of)
		switch {
		case !ok:
			out = append(out, fmt.Sprintf("%s %s is in the program and has no notice", n.Of, n.Version))
		case s.Version != n.Version:
			out = append(out, fmt.Sprintf("%s is in the program as %s, the notice is of %s", n.Of, n.Version, s.Version))
		default:
			out = append(out, textDifferences(s, n)...)
		}
	}
	for _, n := range shipped {
		if _, left := has[n.Of]; left {
			out = append(out, fmt.Sprintf("%s %s has a notice and is not in the program", n.Of, n.Version))
		}
	}
	return out
}

// textDifferences compares the texts of one part.
func textDifferences(shipped, linked assets.Notice) []string {
	var out []string
	left := map[assets.NoticeText]bool{}
	for _, t := range shipped.Texts {
		left[t] = true
	}
	for _, t := range linked.Texts {
		if linked.Of == goName && t.Source != goLicence {
			continue
		}
		if !left[t] {
			out = append(out, fmt.Sprintf("%s %s: the text of %s is not in the notices", linked.Of, linked.Version, t.Source))
		}
		delete(left, t)
	}
	for _, t := range shipped.Texts {
		if left[t] && linked.Of != goName {
			out = append(out, fmt.Sprintf("%s %s: the notices hold a text of %s that is not there", shipped.Of, shipped.Version, t.Source))
		}
	}
	return out
}
