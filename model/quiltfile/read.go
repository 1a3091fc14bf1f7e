package quiltfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"unicode"
	"unicode/utf8"

	"crossgrain/model"
	"crossgrain/model/design"
)

// maxFile is the largest file that is read, in bytes. A quilt of a thousand
// cuts takes a third of it.
const maxFile = 256 << 10

// Read reads the cutting list at path; see [Parse]. The error is [Errors].
func Read(path string) (model.Quilt, error) {
	data, err := Load(path, maxFile)
	if err != nil {
		return model.Quilt{}, err
	}
	return Parse(path, data)
}

// ReadDesign reads the quilt file of either kind at path; see [ParseDesign].
// The error is [Errors].
func ReadDesign(path string) (design.Design, error) {
	data, err := Load(path, maxFile)
	if err != nil {
		return design.Design{}, err
	}
	return ParseDesign(path, data)
}

// Load reads the bytes of a file, at most one more than it may have. The error
// is [Errors], with what to do.
func Load(path string, most int64) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, fileError(path, 0, 0, openError(err))
	}
	defer file.Close()
	if info, err := file.Stat(); err == nil && info.IsDir() {
		return nil, fileError(path, 0, 0, say(fmt.Errorf("%w: a folder", ErrUnreadable), "name a quilt file in it"))
	}
	data, err := io.ReadAll(io.LimitReader(file, most+1))
	if err != nil {
		return nil, fileError(path, 0, 0, openError(err))
	}
	return data, nil
}

// openError says in our words why a file was not read.
func openError(err error) error {
	hint := "check the file and the disk it is on"
	reason := err
	if pathError := (*fs.PathError)(nil); errors.As(err, &pathError) {
		reason = pathError.Err // without the name, which is printed before
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		hint = "check the name and the folder"
	case errors.Is(err, fs.ErrPermission):
		hint = "ask for leave to read it, or copy it to a folder of yours"
	}
	return say(fmt.Errorf("%w: %w", ErrUnreadable, reason), hint)
}

// checkText finds what makes a file no text before YAML sees it.
func checkText(name string, data []byte) Errors {
	if len(data) > maxFile {
		return fileError(name, 0, 0, say(ErrTooLarge, fmt.Sprintf("a quilt file has at most %d kB", maxFile>>10)))
	}
	if bytes.HasPrefix(data, zipMagic) {
		return fileError(name, 0, 0, say(ErrNotText, "a quilt file is YAML, not a workbook or an archive"))
	}
	line, column := 1, 1
	for rest := data; len(rest) > 0; {
		r, size := utf8.DecodeRune(rest)
		switch {
		case r == utf8.RuneError && size == 1:
			return fileError(name, line, column, say(ErrNotText, "save the file as UTF-8"))
		case r == '\n':
			line, column = line+1, 0
		case r != '\t' && r != '\r' && r != nextLine && unicode.IsControl(r):
			return fileError(name, line, column, &model.ValueError{
				Value: string(r), Err: ErrNotText, Hint: "remove the control character"})
		}
		column++
		rest = rest[size:]
	}
	return nil
}

// nextLine ends a line in YAML although it is a control character.
const nextLine = '\u0085'

// zipMagic starts archives, and workbooks, which are archives too.
var zipMagic = []byte("PK\x03\x04")

// byteOrderMark may stand before UTF-8 text.
var byteOrderMark = []byte("\ufeff")

// withoutMark is the text without a byte order mark.
func withoutMark(data []byte) []byte { return bytes.TrimPrefix(data, byteOrderMark) }
