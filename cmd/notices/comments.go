package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"underfall/assets"
)

// sources are the files that the part's packages are compiled from, with the
// C files they include.
func (p part) sources() ([]string, error) {
	seen := map[string]bool{}
	var visit func(file string, include []string) error
	visit = func(file string, include []string) error {
		if seen[file] {
			return nil
		}
		seen[file] = true
		data, err := os.ReadFile(file)
		if err != nil {
			return fmt.Errorf("reading a source: %w", err)
		}
		for _, m := range includeLine.FindAllStringSubmatch(string(data), -1) {
			for _, d := range append([]string{filepath.Dir(file)}, include...) {
				f := filepath.Join(d, filepath.FromSlash(m[1]))
				// The system's own headers are not the module's.
				if s, err := os.Stat(f); err == nil && s.Mode().IsRegular() && strings.HasPrefix(f, p.folder+string(filepath.Separator)) {
					if err := visit(f, include); err != nil {
						return err
					}
					break
				}
			}
		}
		return nil
	}
	for _, pkg := range p.packages {
		include := []string{pkg.Dir}
		for _, flag := range pkg.CgoCFLAGS {
			if d, ok := strings.CutPrefix(flag, "-I"); ok && !filepath.IsAbs(d) {
				include = append(include, filepath.Join(pkg.Dir, d))
			} else if ok {
				include = append(include, d)
			}
		}
		for _, f := range pkg.GoFiles {
			seen[filepath.Join(pkg.Dir, f)] = true
		}
		for _, f := range slices.Concat(pkg.CgoFiles, pkg.CFiles, pkg.HFiles, pkg.MFiles, pkg.SFiles) {
			if err := visit(filepath.Join(pkg.Dir, f), include); err != nil {
				return nil, err
			}
		}
	}
	out := make([]string, 0, len(seen))
	for f := range seen {
		out = append(out, f)
	}
	slices.Sort(out)
	return out, nil
}

var (
	includeLine = regexp.MustCompile(`(?m)^[\s/*]*#\s*include\s+["<]([^">]+)[">]`)
	// holderLine names who holds a copyright, grantLine says what is allowed,
	// and endLine belongs to the words of a licence.
	holderLine = regexp.MustCompile(`(?i)copyright +(\(c\)|©|\d{4})|©|\(c\) *\d{4}`)
	grantLine  = regexp.MustCompile(`(?i)permission (to use|is (hereby )?granted)|redistributions? (and use|of source)|freely granted|used freely|is free software|may be distributed subject|is licensed under`)
	endLine    = regexp.MustCompile(`(?i)permission|redistribut|warrant|liab|notice|licen[cs]e|used freely`)
	ruleLine   = regexp.MustCompile(`^([-=*/#~_ ]*|</?pre>)$`)
	wordGap    = regexp.MustCompile(`[^\pL\pN]+`)
)

// commentNotices are the licences that stand in comments of the files and are
// not in texts already. Comments that differ only in who holds the copyright
// become one.
func commentNotices(folder string, files []string, texts []assets.NoticeText) ([]assets.NoticeText, error) {
	var known []string
	for _, t := range texts {
		known = append(known, words(t.Text))
	}
	type found struct {
		holders []string
		terms   string
		files   []string
	}
	var all []*found
	byTerms := map[string]*found{}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			return nil, fmt.Errorf("reading a source: %w", err)
		}
		for _, c := range comments(string(data)) {
			holders, terms := licenceIn(c)
			whole := words(strings.Join(holders, " ") + " " + terms)
			if terms == "" || slices.ContainsFunc(known, func(k string) bool { return strings.Contains(k, whole) }) {
				continue
			}
			f := byTerms[words(terms)]
			if f == nil {
				f = &found{terms: terms}
				byTerms[words(terms)] = f
				all = append(all, f)
			}
			for _, h := range holders {
				if !slices.ContainsFunc(f.holders, func(o string) bool { return words(o) == words(h) }) {
					f.holders = append(f.holders, h)
				}
			}
			if name := within(folder, file); !slices.Contains(f.files, name) {
				f.files = append(f.files, name)
			}
		}
	}
	var out []assets.NoticeText
	for _, f := range all {
		slices.Sort(f.holders)
		source := "comment in " + f.files[0]
		if n := len(f.files) - 1; n > 0 {
			source += fmt.Sprintf(" and %d more", n)
		}
		text := f.terms
		if len(f.holders) > 0 {
			text = strings.Join(f.holders, "\n") + "\n\n" + text
		}
		out = append(out, assets.NoticeText{Source: source, Text: text})
	}
	return out, nil
}

// words are a text's letters and digits alone, for comparing.
func words(s string) string {
	return strings.TrimSpace(wordGap.ReplaceAllString(strings.ToLower(s), " "))
}

// comments are the comments of Go, C or assembly that have lines of their own,
// without their marks; lines of // that follow one another are one.
func comments(source string) []string {
	var out, now []string
	end := func() {
		if len(now) > 0 {
			out = append(out, strings.Join(now, "\n"))
		}
		now = nil
	}
	inside := false // between /* and */
	for line := range strings.SplitSeq(strings.ReplaceAll(source, "\r\n", "\n"), "\n") {
		l := strings.TrimSpace(line)
		if !inside {
			if text, ok := strings.CutPrefix(l, "//"); ok {
				now = append(now, strings.TrimRight(text, " \t"))
				continue
			}
			end()
			rest, ok := strings.CutPrefix(l, "/*")
			if !ok {
				continue
			}
			inside, l = true, rest
		}
		text, _, ended := strings.Cut(l, "*/")
		text = strings.TrimLeft(text, "*/")
		now = append(now, strings.TrimRight(text, " \t*"))
		if ended {
			inside = false
			end()
		}
	}
	end()
	return out
}

// licenceIn finds a licence in a comment: who holds the copyright, where that
// stands before the rest, and the terms. Terms are empty where the comment
// grants nothing by itself.
func licenceIn(comment string) (holders []string, terms string) {
	var paragraphs [][]string
	fresh := true
	for line := range strings.SplitSeq(comment, "\n") {
		if ruleLine.MatchString(strings.TrimSpace(line)) {
			fresh = true
			continue
		}
		if fresh {
			paragraphs = append(paragraphs, nil)
			fresh = false
		}
		paragraphs[len(paragraphs)-1] = append(paragraphs[len(paragraphs)-1], line)
	}
	has := func(re *regexp.Regexp) func([]string) bool {
		return func(p []string) bool { return re.MatchString(strings.Join(p, " ")) }
	}
	first := slices.IndexFunc(paragraphs, has(holderLine))
	if first < 0 || !slices.ContainsFunc(paragraphs[first:], has(grantLine)) {
		return nil, ""
	}
	last := first
	for i := first; i < len(paragraphs); i++ {
		if has(endLine)(paragraphs[i]) {
			last = i
		}
	}
	paragraphs = paragraphs[first : last+1]
	// A title may stand over the holders, and terms right under them.
	p := paragraphs[0]
	from := slices.IndexFunc(p, holderLine.MatchString)
	to := from
	for from >= 0 && to < len(p) && holderLine.MatchString(p[to]) {
		holders = append(holders, strings.Trim(strings.TrimSpace(p[to]), `"`))
		to++
	}
	if from >= 0 {
		paragraphs[0] = p[to:]
		if len(paragraphs[0]) == 0 {
			paragraphs = paragraphs[1:]
		}
	}
	var blocks []string
	for _, p := range paragraphs {
		blocks = append(blocks, strings.Join(unindented(p), "\n"))
	}
	return holders, strings.Join(blocks, "\n\n")
}

// unindented takes away the indentation that all the lines have.
func unindented(lines []string) []string {
	least := -1
	for _, l := range lines {
		if n := len(l) - len(strings.TrimLeft(l, " \t")); least < 0 || n < least {
			least = n
		}
	}
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = l[least:]
	}
	return out
}
