package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
)

// linkedPackage is what go list tells about a package.
type linkedPackage struct {
	ImportPath string
	Dir        string
	Standard   bool
	Module     *linkedModule // nil in the standard library
	EmbedFiles []string

	GoFiles, CgoFiles, CFiles, HFiles, MFiles, SFiles []string

	CgoCFLAGS []string
}

type linkedModule struct {
	Path    string
	Version string
	Dir     string
	Main    bool
}

// systems are what Underfall may be built for; each links other packages.
func systems() [][2]string {
	return [][2]string{{"linux", "amd64"}, {"linux", "arm64"}, {"windows", "amd64"}, {"darwin", "amd64"}, {"darwin", "arm64"}}
}

// linkedPackages lists all that is linked into a program on any system; what
// differs between systems is joined.
func linkedPackages(program string) ([]linkedPackage, error) {
	var out []linkedPackage
	at := map[string]int{}
	for _, s := range systems() {
		cmd := exec.Command("go", "list", "-deps", "-json=ImportPath,Dir,Standard,Module,EmbedFiles,GoFiles,CgoFiles,CFiles,HFiles,MFiles,SFiles,CgoCFLAGS", program)
		cmd.Env = append(os.Environ(), "GOOS="+s[0], "GOARCH="+s[1], "CGO_ENABLED=1")
		var errs bytes.Buffer
		cmd.Stderr = &errs
		list, err := cmd.Output()
		if err != nil {
			return nil, fmt.Errorf("listing what %s links on %s %s: %w\n%s", program, s[0], s[1], err, errs.String())
		}
		d := json.NewDecoder(bytes.NewReader(list))
		for {
			var p linkedPackage
			if err := d.Decode(&p); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				return nil, fmt.Errorf("reading go's list of what %s links: %w", program, err)
			}
			i, known := at[p.ImportPath]
			if !known {
				at[p.ImportPath] = len(out)
				out = append(out, p)
				continue
			}
			out[i].join(p)
		}
	}
	slices.SortFunc(out, func(a, b linkedPackage) int { return strings.Compare(a.ImportPath, b.ImportPath) })
	return out, nil
}

// join adds the files that the package has on another system.
func (p *linkedPackage) join(q linkedPackage) {
	for _, f := range []struct {
		to   *[]string
		from []string
	}{{&p.EmbedFiles, q.EmbedFiles}, {&p.GoFiles, q.GoFiles}, {&p.CgoFiles, q.CgoFiles}, {&p.CFiles, q.CFiles},
		{&p.HFiles, q.HFiles}, {&p.MFiles, q.MFiles}, {&p.SFiles, q.SFiles}, {&p.CgoCFLAGS, q.CgoCFLAGS}} {
		for _, s := range f.from {
			if !slices.Contains(*f.to, s) {
				*f.to = append(*f.to, s)
			}
		}
	}
}
