package takeoff

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"
)

// Unreadable is an error of a folder that is read from, in the planner's words:
// what is wrong with a file, and how to mend it.
type Unreadable struct{ Text, Fix string }

func (u *Unreadable) Error() string { return u.Text }

// cantOpen is why a file can't be opened or read.
func cantOpen(err error, whenMissing string) *fault {
	own := (*Unreadable)(nil)
	switch {
	case errors.As(err, &own):
		return &fault{own.Text, own.Fix}
	case errors.Is(err, fs.ErrNotExist):
		return &fault{"there is no such file", whenMissing}
	}
	return &fault{err.Error(), mayBeRead}
}

// path returns where a file that the load file names lies in the folder that
// is read from. The path is relative to the load file and may not leave its
// folder, unless that is allowed; such is an example of one.
func (s *source) path(name, such string) (string, *fault) {
	clean := path.Clean(name)
	switch {
	case s.folder == nil:
		return "", &fault{"there is no folder to read it from", "give the load file by its name instead of on standard input"}
	case strings.Contains(name, `\`):
		return "", &fault{"its path holds a backslash", "write / between folder and file"}
	case strings.ContainsRune(name, 0) || clean == ".":
		return "", &fault{"it is no path of a file", "write its path from the folder of the load file, such as " + such}
	case s.opt.AllowOutside && isAbsolute(clean):
		return clean, nil
	case s.opt.AllowOutside:
		return path.Join(s.dir, clean), nil
	case isAbsolute(clean) || !fs.ValidPath(clean):
		return "", &fault{"its path leaves the folder of the load file",
			"put the file beside the load file or in a folder below it, and write its path from there, such as " + such + "; or, where you trust the load file, say --allow-outside"}
	}
	return path.Join(s.dir, clean), nil
}

// isAbsolute tells whether a path begins at the root, or at a drive.
func isAbsolute(name string) bool {
	drive := len(name) >= 2 && name[1] == ':' && (name[0]|0x20 >= 'a' && name[0]|0x20 <= 'z')
	return path.IsAbs(name) || drive
}

// readWhole reads a file of at most so many bytes.
func readWhole(fsys fs.FS, name string, most int64) ([]byte, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && int64(len(data)) > most {
		return nil, fmt.Errorf("%s has more than %d bytes", name, most)
	}
	return data, err
}
