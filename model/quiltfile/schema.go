package quiltfile

import (
	"bytes"
	_ "embed" // for the schema
)

//go:embed schema.json
var schema []byte

// Schema is the form of a quilt file as a JSON Schema (draft 2020-12), by
// which editors complete the keys and mark slips while a file is written.
// Parse checks more than the schema can say.
func Schema() []byte { return bytes.Clone(schema) }
