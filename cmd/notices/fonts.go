package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"golang.org/x/image/font/sfnt"

	"underfall/assets"
)

var fontName = regexp.MustCompile(`(?i)\.(ttf|otf|ttc|otc|woff2?)$`)

func isFont(file string) bool { return fontName.MatchString(file) }

// fontLicences tells the licence file beside a font by how its name begins.
func fontLicences() map[string]string {
	return map[string]string{
		"NotoSans-":      "LICENSE.txt",
		"DejaVuSansMono": "LICENSE_DejaVu-Powerline.txt",
		"Inter":          "LICENSE_Inter.txt",
		"EmojiOneColor":  "LICENSE_EmojiOneColor.txt",
	}
}

// fonts are the notices of the fonts that the part's packages embed: the
// licence beside each, and what it says of itself.
func (p part) fonts() ([]assets.Notice, error) {
	var out []assets.Notice
	for _, pkg := range p.lettered {
		for _, f := range pkg.EmbedFiles {
			if !isFont(f) {
				continue
			}
			n, err := fontNotice(filepath.Join(pkg.Dir, filepath.FromSlash(f)), p.folder)
			if err != nil {
				return nil, err
			}
			n.Of += ", font in " + p.name
			n.Version = p.version
			out = append(out, n)
		}
	}
	return out, nil
}

// fontNotice reads a font and the licence beside it.
func fontNotice(file, folder string) (assets.Notice, error) {
	n := assets.Notice{}
	name := within(folder, file)
	for prefix, licence := range fontLicences() {
		if !strings.HasPrefix(filepath.Base(file), prefix) {
			continue
		}
		path := filepath.Join(filepath.Dir(file), licence)
		text, err := os.ReadFile(path)
		if err != nil {
			return n, fmt.Errorf("reading the licence of the font %s: %w", name, err)
		}
		n.Texts = append(n.Texts, assets.NoticeText{Source: within(folder, path), Text: string(text)})
	}
	if len(n.Texts) != 1 {
		return n, fmt.Errorf("the font %s: name its licence in cmd/notices/fonts.go", name)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		return n, fmt.Errorf("reading a font: %w", err)
	}
	f, err := sfnt.Parse(data)
	if err != nil {
		return n, fmt.Errorf("reading the font %s: %w", name, err)
	}
	var says []string
	for _, s := range []struct {
		label string
		id    sfnt.NameID
	}{{"", sfnt.NameIDFull}, {"", sfnt.NameIDCopyright}, {"", sfnt.NameIDTrademark}, {"Made by: ", sfnt.NameIDManufacturer},
		{"Drawn by: ", sfnt.NameIDDesigner}, {"", sfnt.NameIDVendorURL}, {"", sfnt.NameIDLicense}, {"", sfnt.NameIDLicenseURL}} {
		v, err := f.Name(nil, s.id)
		switch {
		case errors.Is(err, sfnt.ErrNotFound):
		case err != nil:
			return n, fmt.Errorf("reading what the font %s says of itself: %w", name, err)
		case s.id == sfnt.NameIDFull:
			n.Of = strings.TrimSpace(v)
		case strings.TrimSpace(v) != "":
			says = append(says, s.label+strings.TrimSpace(v))
		}
	}
	if n.Of == "" || len(says) == 0 {
		return n, fmt.Errorf("the font %s does not say what it is and whose", name)
	}
	n.Texts = append(n.Texts, assets.NoticeText{Source: name, Text: strings.Join(says, "\n\n")})
	return n, nil
}
