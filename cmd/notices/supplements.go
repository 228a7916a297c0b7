package main

import (
	"embed"
	"fmt"
	"strings"

	"underfall/assets"
)

//go:embed supplements/*.txt
var supplementFiles embed.FS

// supplement is a licence that a module refers to, or owes, without holding
// its text.
type supplement struct {
	of    string // what it is the licence of
	needs string // import path of the packages that need it, or its beginning
	files []string
}

func allSupplements() []supplement {
	return []supplement{
		// simplefeatures names JTS in THIRD_PARTY_LICENSES and the licence by
		// its name only.
		{"JTS Topology Suite", "github.com/peterstace/simplefeatures/internal/jtsport/", []string{"jts.txt"}},
		// Most of Fyne's icons are Material icons; Fyne does not say so.
		{"Material icons", "fyne.io/fyne/v2/theme", []string{"icons.txt", "apache-2.0.txt"}},
		// The font's own words name the licence; it asks for a link.
		{"EmojiOne pictures", "fyne.io/fyne/v2/theme", []string{"emoji.txt"}},
	}
}

// supplements are the notices for what modules refer to.
func supplements(parts []part) ([]assets.Notice, error) {
	var out []assets.Notice
	for _, s := range allSupplements() {
		n := assets.Notice{}
		for _, p := range parts {
			for _, pkg := range p.packages {
				if strings.HasPrefix(pkg.ImportPath, s.needs) {
					n.Of, n.Version = s.of+", in "+p.name, p.version
				}
			}
		}
		if n.Of == "" {
			return nil, fmt.Errorf("nothing of %s is linked: take the supplement for %s out of cmd/notices", s.needs, s.of)
		}
		for _, file := range s.files {
			data, err := supplementFiles.ReadFile("supplements/" + file)
			if err != nil {
				return nil, fmt.Errorf("reading a supplement: %w", err)
			}
			n.Texts = append(n.Texts, assets.NoticeText{Source: file, Text: string(data)})
		}
		out = append(out, n)
	}
	return out, nil
}
