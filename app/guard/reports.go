package guard

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"sort"
	"strings"
	"sync"
	"time"

	"underfall/app/store"
)

// Folder holds the reports, inside the program's own folder.
const Folder = "faults"

// MostReports is how many reports a folder keeps: the newest.
const MostReports = 20

// Report is what a fault's file holds: enough to make it happen again.
type Report struct {
	Part    string          `json:"part"`
	Doing   string          `json:"doing,omitempty"`
	Reason  string          `json:"reason"`
	When    time.Time       `json:"when"`
	Version string          `json:"version"` // of Underfall, with its revision
	Go      string          `json:"go"`
	System  string          `json:"system"`
	Stack   []string        `json:"stack"`
	Job     json.RawMessage `json:"job,omitempty"` // as it stood, as in its file
}

// Reports writes reports into a folder. Its methods may be called from any
// goroutine.
type Reports struct {
	folder string
	mu     sync.Mutex
	// written are the files of faults that were reported before, so that one
	// that comes over and over does not push the others out.
	written map[string]string
}

// NewReports keeps reports in a folder, which is made when it is needed.
func NewReports(folder string) *Reports {
	return &Reports{folder: folder, written: map[string]string{}}
}

const reportPattern = "fault-*.json"

// Write writes a fault with the job as it stood, nil for none, and gives the
// report's file. A fault that has been written since the program was started is
// not written again: its file is given.
func (r *Reports) Write(f Fault, job []byte, now time.Time) (path string, err error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	key := string(f.Part) + "\n" + f.Reason + "\n" + strings.Join(f.Stack, "\n")
	if path, ok := r.written[key]; ok {
		return path, nil
	}
	report := Report{
		Part: string(f.Part), Doing: withoutHome(f.Doing), Reason: withoutHome(f.Reason), Stack: f.Stack,
		When: now.UTC().Truncate(time.Second), Version: version(), Go: runtime.Version(),
		System: fmt.Sprintf("%s/%s, %d processors", runtime.GOOS, runtime.GOARCH, runtime.NumCPU()),
	}
	if json.Valid(job) {
		report.Job = job
	}
	data, err := json.MarshalIndent(report, "", "  ")
	if err != nil {
		return "", fmt.Errorf("wording the report of a fault: %w", err)
	}
	if err := os.MkdirAll(r.folder, 0o755); err != nil {
		return "", fmt.Errorf("making the folder for reports of faults: %w", err)
	}
	for n := 1; ; n++ {
		path = filepath.Join(r.folder, fmt.Sprintf("fault-%s-%02d.json", now.UTC().Format("20060102-150405"), n))
		if _, err := os.Stat(path); os.IsNotExist(err) {
			break
		}
	}
	if _, err := store.Write(path, append(data, '\n')); err != nil {
		return "", fmt.Errorf("writing the report of a fault: %w", err)
	}
	r.written[key] = path
	return path, r.prune()
}

// prune removes the oldest reports beyond the number that is kept.
func (r *Reports) prune() error {
	files, err := filepath.Glob(filepath.Join(r.folder, reportPattern))
	if err != nil {
		return fmt.Errorf("looking for old reports of faults: %w", err)
	}
	sort.Strings(files) // by time, as they are named
	for len(files) > MostReports {
		if err := os.Remove(files[0]); err != nil {
			return fmt.Errorf("removing an old report of a fault: %w", err)
		}
		files = files[1:]
	}
	return nil
}

// version is the program's, and the revision it was built from where that is
// known.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	v := info.Main.Version
	if v == "" {
		v = "(devel)"
	}
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			v += " " + s.Value
		case s.Key == "vcs.modified" && s.Value == "true":
			v += " changed"
		}
	}
	return v
}
