package reports

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"
	"slices"
	"strings"
)

// typesPart is the part of a workbook that says what its other parts are.
const typesPart = "[Content_Types].xml"

// inOrder writes the archive of a workbook with its parts in the order of their
// names. Streamed sheets and the kinds of pictures come out of excelize in any
// order.
func inOrder(w io.Writer, archive []byte) error {
	in, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	if err != nil {
		return err
	}
	slices.SortFunc(in.File, func(a, b *zip.File) int { return strings.Compare(a.Name, b.Name) })
	out := zip.NewWriter(w)
	for _, part := range in.File {
		if part.Name == typesPart {
			err = copyTypes(out, part)
		} else {
			err = out.Copy(part)
		}
		if err != nil {
			return err
		}
	}
	return out.Close()
}

// partTypes are the kinds of a workbook's parts: by the ending of a name, and
// of single parts.
type partTypes struct {
	XMLName   xml.Name      `xml:"http://schemas.openxmlformats.org/package/2006/content-types Types"`
	Defaults  []defaultType `xml:"Default"`
	Overrides []struct {
		PartName    string `xml:",attr"`
		ContentType string `xml:",attr"`
	} `xml:"Override"`
}

type defaultType struct {
	Extension   string `xml:",attr"`
	ContentType string `xml:",attr"`
}

// copyTypes writes the kinds of parts in the order of their names.
func copyTypes(out *zip.Writer, part *zip.File) error {
	in, err := part.Open()
	if err != nil {
		return err
	}
	defer in.Close()
	var types partTypes
	if err := xml.NewDecoder(in).Decode(&types); err != nil {
		return err
	}
	slices.SortFunc(types.Defaults, func(a, b defaultType) int {
		return strings.Compare(a.Extension, b.Extension)
	})
	w, err := out.CreateHeader(&zip.FileHeader{Name: part.Name, Method: zip.Deflate, Modified: part.Modified})
	if err != nil {
		return err
	}
	if _, err := io.WriteString(w, xml.Header); err != nil {
		return err
	}
	return xml.NewEncoder(w).Encode(types)
}
