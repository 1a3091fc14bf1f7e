package quiltbook

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
	"unicode/utf16"

	"crossgrain/model/quiltfile"
)

const (
	// MaxFile is the largest workbook that is read, in bytes. What start writes
	// has a thousandth of it; the rest is room for pictures.
	MaxFile = 16 << 20
	// maxXML is how much of a workbook is unpacked, in bytes. A quilt of 2000
	// cuts and 400 fabrics takes 1.2 MB.
	maxXML = 4 << 20
)

// archive is a workbook as it is kept: parts in a zip archive. Only the parts
// that are asked for are unpacked.
type archive struct {
	parts map[string]*zip.File // by their names in lower case
	left  int64                // how many bytes may still be unpacked
}

var (
	zipMagic      = []byte("PK\x03\x04")
	compoundMagic = []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1") // of older Office files, and of locked ones
)

// openArchive says what a file is, if it is no workbook.
func openArchive(data []byte) (*archive, error) {
	switch {
	case len(data) == 0:
		return nil, say(quiltfile.ErrEmpty, "make a new workbook with crossgrain start")
	case len(data) > MaxFile:
		return nil, say(quiltfile.ErrTooLarge, fmt.Sprintf("a workbook has at most %d MB: take pictures out of it", MaxFile>>20))
	case bytes.HasPrefix(data, compoundMagic) && bytes.Contains(data, utf16Text("EncryptedPackage")):
		return nil, say(ErrLocked, "save it without one")
	case bytes.HasPrefix(data, compoundMagic):
		return nil, not("a file in the older .xls form")
	case !bytes.HasPrefix(data, zipMagic):
		return nil, not("plain text, or something else")
	}
	reader, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, say(fmt.Errorf("%w: it breaks off, or is no archive", ErrDamaged), saveAgain)
	}
	a := &archive{parts: make(map[string]*zip.File), left: maxXML}
	for _, f := range reader.File {
		if name := partName(f.Name); a.parts[name] == nil {
			a.parts[name] = f
		}
	}
	if err := a.otherKind(); err != nil {
		return nil, err
	}
	return a, nil
}

// otherKind says what an archive is, if it is one of other files.
func (a *archive) otherKind() error {
	if a.has("xl/workbook.bin") {
		return not("a binary workbook, .xlsb")
	}
	if a.has("mimetype") && a.has("content.xml") {
		return not("an OpenDocument file, .ods")
	}
	if !a.has("[content_types].xml") {
		return not("an archive of other files")
	}
	return nil
}

// partName is the name of a part without regard to case, and with the slashes
// of the standard.
func partName(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

func utf16Text(s string) []byte {
	var b []byte
	for _, u := range utf16.Encode([]rune(s)) {
		b = append(b, byte(u), byte(u>>8))
	}
	return b
}

func (a *archive) has(name string) bool { return a.parts[partName(name)] != nil }

// errTooMuch ends the unpacking of an archive that holds more than maxXML.
var errTooMuch = errors.New("too much to unpack")

// measured reads a part as long as there may be more.
type measured struct {
	part io.Reader
	left *int64
}

func (m measured) Read(p []byte) (int, error) {
	if *m.left <= 0 {
		return 0, errTooMuch
	}
	n, err := m.part.Read(p[:min(int64(len(p)), *m.left)])
	*m.left -= int64(n)
	return n, err
}

// read hands the XML of a part to a function.
func (a *archive) read(name string, do func(*xml.Decoder) error) error {
	file := a.parts[partName(name)]
	if file == nil {
		if name == "" {
			name = "the sheet"
		}
		return say(fmt.Errorf("%w: %s is not in it", ErrDamaged, name), saveAgain)
	}
	if file.Flags&1 != 0 {
		return say(ErrLocked, "save it without one")
	}
	part, err := file.Open()
	if err == nil {
		err = errors.Join(do(xml.NewDecoder(measured{part, &a.left})), part.Close())
	}
	switch {
	case errors.Is(err, errTooMuch):
		return say(quiltfile.ErrTooLarge, "its sheets hold far more than a quilt: copy what you wrote into a new one from crossgrain start")
	case errors.Is(err, errStop):
		return nil
	case err != nil:
		return say(fmt.Errorf("%w: %s cannot be read", ErrDamaged, name), saveAgain)
	}
	return nil
}

// errStop ends the reading of a part before its end.
var errStop = errors.New("enough")

// decode reads a part into a struct.
func (a *archive) decode(name string, into any) error {
	return a.read(name, func(d *xml.Decoder) error { return d.Decode(into) })
}

// each calls do for every element that begins in a part, to the part's end.
func each(d *xml.Decoder, do func(xml.StartElement) error) error {
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if start, ok := token.(xml.StartElement); ok {
			if err := do(start); err != nil {
				return err
			}
		}
	}
}

// attribute is the value of an attribute, empty if it is not there.
func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// relations are the links of a part to others: what they are, by their label.
type relations struct {
	Links []struct {
		ID     string `xml:"Id,attr"`
		Type   string `xml:"Type,attr"`
		Target string `xml:"Target,attr"`
	} `xml:"Relationship"`
}

// relationsOf reads the links of a part; those of the archive if it is empty.
// A part without links is none.
func (a *archive) relationsOf(part string) (byID, byKind map[string]string, err error) {
	folder, file := path.Split(part)
	name := folder + "_rels/" + file + ".rels"
	var all relations
	if a.has(name) {
		if err := a.decode(name, &all); err != nil {
			return nil, nil, err
		}
	}
	byID, byKind = make(map[string]string), make(map[string]string)
	for _, l := range all.Links {
		target := l.Target
		if !strings.HasPrefix(target, "/") {
			target = path.Join("/", folder, target)
		}
		byID[l.ID] = target[1:]
		// The kinds are addresses, of which both forms of the standard have the
		// same end.
		byKind[path.Base(l.Type)] = target[1:]
	}
	return byID, byKind, nil
}
