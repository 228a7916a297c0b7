package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"underfall/assets"
)

// The part that comes with the compiler.
const (
	goName    = "Go standard library and runtime"
	goLicence = "LICENSE"
)

// part is a module, or the standard library, with the packages linked of it.
type part struct {
	name, version, folder string
	packages              []linkedPackage
	lettered              []linkedPackage // those that embed fonts
}

// collect makes the notices of the packages.
func collect(packages []linkedPackage) ([]assets.Notice, error) {
	parts, err := partsOf(packages)
	if err != nil {
		return nil, err
	}
	var out []assets.Notice
	for _, p := range parts {
		files, err := p.sources()
		if err != nil {
			return nil, fmt.Errorf("%s %s: %w", p.name, p.version, err)
		}
		texts, err := p.licences(files)
		if err != nil {
			return nil, fmt.Errorf("%s %s: %w", p.name, p.version, err)
		}
		// Some systems keep the compiler's licence elsewhere; see run.
		if len(texts) == 0 && p.name != goName {
			return nil, fmt.Errorf("%s %s has no licence file in %s: it must not be linked before its licence is known", p.name, p.version, p.folder)
		}
		comments, err := commentNotices(p.folder, files, texts)
		if err != nil {
			return nil, fmt.Errorf("%s %s: %w", p.name, p.version, err)
		}
		out = append(out, assets.Notice{Of: p.name, Version: p.version, Texts: append(texts, comments...)})
		fonts, err := p.fonts()
		if err != nil {
			return nil, fmt.Errorf("%s %s: %w", p.name, p.version, err)
		}
		out = append(out, fonts...)
	}
	more, err := supplements(parts)
	return append(out, more...), err
}

// partsOf groups packages by module. Of Underfall itself only the licence
// counts, and the fonts that it embeds.
func partsOf(packages []linkedPackage) ([]part, error) {
	var out []part
	at := map[string]int{}
	for _, p := range packages {
		q := part{name: goName}
		switch {
		case p.Standard:
			// The package's folder is the compiler's src and its import path.
			root, ok := strings.CutSuffix(filepath.ToSlash(p.Dir), "/src/"+p.ImportPath)
			if !ok {
				return nil, fmt.Errorf("%s is not where Go's own packages are: %s", p.ImportPath, p.Dir)
			}
			q.folder = filepath.FromSlash(root)
		case p.Module == nil:
			return nil, fmt.Errorf("%s belongs to no module", p.ImportPath)
		case p.Module.Main:
			q.name, q.folder = assets.OwnName, p.Module.Dir
		default:
			q.name, q.version, q.folder = p.Module.Path, p.Module.Version, p.Module.Dir
		}
		i, known := at[q.name]
		if !known {
			i = len(out)
			at[q.name] = i
			out = append(out, q)
		}
		if q.name != assets.OwnName {
			out[i].packages = append(out[i].packages, p)
		}
		if slices.ContainsFunc(p.EmbedFiles, isFont) {
			out[i].lettered = append(out[i].lettered, p)
		}
	}
	return out, nil
}

// licenceName are the names of files that hold a licence or a notice.
var licenceName = regexp.MustCompile(`(?i)(^|[-_.])(licen[cs]es?|unlicen[cs]e|copying|copyright|notices?|patents|ofl|fontlog)([-_][^.]*)?(\.(txt|md|rst))?$`)

// licenceFolder are the names of folders that hold nothing else.
var licenceFolder = regexp.MustCompile(`(?i)^(third[-_]party[-_])?(licen[cs]es|notices)$`)

// licences are the texts of the licence files that stand in the module's
// folder, or in any folder down to a linked file.
func (p part) licences(files []string) ([]assets.NoticeText, error) {
	folders := map[string]bool{p.folder: true}
	for _, f := range files {
		for d := filepath.Dir(f); len(d) > len(p.folder) && !folders[d]; d = filepath.Dir(d) {
			folders[d] = true
		}
	}
	var out []assets.NoticeText
	add := func(file string) error {
		data, err := os.ReadFile(file)
		if err != nil {
			return fmt.Errorf("reading a licence: %w", err)
		}
		out = append(out, assets.NoticeText{Source: within(p.folder, file), Text: string(data)})
		return nil
	}
	for folder := range folders {
		entries, err := os.ReadDir(folder)
		if err != nil {
			return nil, fmt.Errorf("looking for licences: %w", err)
		}
		for _, e := range entries {
			path := filepath.Join(folder, e.Name())
			switch {
			case e.IsDir() && licenceFolder.MatchString(e.Name()):
				err = filepath.WalkDir(path, func(file string, e fs.DirEntry, err error) error {
					if err != nil || e.IsDir() {
						return err
					}
					return add(file)
				})
			case !e.IsDir() && licenceName.MatchString(e.Name()):
				err = add(path)
			}
			if err != nil {
				return nil, err
			}
		}
	}
	return out, nil
}

// within is a file's path in a folder, with slashes.
func within(folder, file string) string {
	return filepath.ToSlash(strings.TrimPrefix(strings.TrimPrefix(file, folder), string(filepath.Separator)))
}
