# A captured terminal screen (lines of text, ESC [1m and ESC [0m for bold) as a picture. Set columns and rows.
# Every run of text is held to the width of its columns, so that any font of the reader's keeps them in place.
BEGIN {
    wide = 8.4; high = 18; edge = 14
    printf "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%d\" height=\"%d\" ", width(), height()
    printf "viewBox=\"0 0 %d %d\" role=\"img\">\n", width(), height()
    print "<title>A hunt in a terminal</title>"
    printf "<rect width=\"%d\" height=\"%d\" rx=\"8\" fill=\"#12161b\"/>\n", width(), height()
    print "<g font-family=\"ui-monospace, monospace\" font-size=\"14\" fill=\"#c3cad1\">"
}
{
    column = 0
    rest = $0
    while (at = index(rest, "\033[")) {
        run(substr(rest, 1, at - 1))
        bold = substr(rest, at + 2, 1) == "1"
        rest = substr(rest, at + 4)
    }
    run(rest)
}
END { print "</g>\n</svg>" }

function width() { return int(columns * wide + 2 * edge) }
function height() { return rows * high + 2 * edge }

# Where two blanks stand together the text is drawn in pieces: not every viewer keeps them.
function run(text,    lead, end, piece) {
    while (match(text, /[^ ]+( [^ ]+)*/)) {
        lead = RSTART - 1
        end = lead + RLENGTH
        piece = substr(text, RSTART, RLENGTH)
        printf "<text x=\"%.1f\" y=\"%d\" textLength=\"%.1f\"%s>%s</text>\n", edge + (column + lead) * wide,
            edge + NR * high - 5, length(piece) * wide, bold ? " font-weight=\"bold\" fill=\"#ffffff\"" : "",
            escaped(piece)
        column += end
        text = substr(text, end + 1)
    }
    column += length(text)
}

function escaped(text) {
    gsub(/&/, "\\&amp;", text)
    gsub(/</, "\\&lt;", text)
    gsub(/>/, "\\&gt;", text)
    return text
}
