// The words of --help. A test holds them against the options that the parser knows.
// Entry: help_text.
#include "app/help.h"

namespace fitup::app {

namespace {

constexpr std::string_view program =
    R"(fitup turns one text spec of a welded equipment or battery enclosure into what the shop floor
needs: exact solids, files for the laser cutter and the 3D printer, and findings that show what would
collide, or not meet where it should, before anything is cut. It says what it did not check.

Usage: fitup COMMAND ...

Commands
  make SPEC        check the spec, then write its job folder
  check SPEC       run every check and print the findings; write nothing
  compare A B      set two specs or job folders side by side: parts, masses, lengths
  lighten SPEC     the lightest sections and thicknesses of the shelf that pass
  begin NAME       write a commented spec to start from
  explain [KEY]    what a key of the spec means: type, unit, default, range
  tables [WORD]    the built-in sections, threads, screws, eyes and materials, with their sources
  schema           a JSON Schema of the spec, for editors
  inspect FILE     judge a STEP, DXF or STL file from anywhere, as a shop would that is to cut or print it

Options
  --version        print the version
  -h, --help       print this; 'fitup COMMAND --help' explains a command

Start with
  fitup check examples/park-locomotive/front-box.toml
  fitup explain box.NAME.frame.section

Exit status
  0    no check fails
  1    a check fails; of compare: something differs
  2    the spec or the command line is wrong
  3    a file could not be read or written; the folder is refused or locked
  4    internal error
  130  interrupted

The program helps to plan fabrication. It approves nothing and calls nothing safe.
)";

constexpr std::string_view make = R"(fitup make: check a spec, then write its job folder

Usage: fitup make SPEC [-o DIR] [options]
       fitup make SPEC SPEC ... [-o DIR] [options]

What it writes
  -o, --output DIR     the job folder (default: the spec's path without .toml). It is built beside DIR
                       and exchanged with it when it is complete and has been read back. For several
                       specs a folder for each under DIR (default: jobs), and DIR/joint-order with
                       what to order, saw and buy over all of them.
  --only GROUP,...     limit the files to step, dxf, stl, 3mf, lists, paper, checks; all checks run regardless
  --step ap242|ap214   what STEP files follow (default: ap242)
  --dxf r2000|r12      release of the flat files (default: the spec's cutter.dxf)
  --anyway             write the files for cutting and printing even if a check fails
  --show STAGE         print the text of spec, layout, plan, model or findings, and write nothing

What it builds
  --set key=value      give a key of the spec another value for this run, by its dotted name; a bare
                       name is one of [sizes]; may be repeated
  --cores N            use N processor cores (default: all); the result is the same for any N
  --units mm|in        units of what is printed and of the lists (default: the spec's); parts, flat
                       files and JSON stay in mm and kg

How it talks
  -q, --quiet          only what needs attention
  --json               one JSON object on standard output, messages on standard error
  --no-color           no colour (so does a NO_COLOR in the environment)
  -h, --help           print this

A failed check (exit status 1) leaves a job folder with the assembly and the checks, but without the
files that someone would cut or print from, unless --anyway is given. An earlier folder of the same job
is replaced as a whole: what it held for cutting and printing goes with it, and the summary says so. A
folder of a job of another name is refused. The joint lists are written when every spec's files for
making were; if not, those of an earlier run are taken away.
)";

constexpr std::string_view check = R"(fitup check: run every check and print the findings; write nothing

Usage: fitup check SPEC [options]

  --set key=value      give a key of the spec another value for this run, by its dotted name; a bare
                       name is one of [sizes]; may be repeated
  --cores N            use N processor cores (default: all); the result is the same for any N
  --units mm|in        units of what is printed and of the lists (default: the spec's); parts, flat
                       files and JSON stay in mm and kg
  -q, --quiet          only what needs attention
  --json               one JSON object on standard output, messages on standard error
  --no-color           no colour (so does a NO_COLOR in the environment)
  -h, --help           print this

Verdicts are pass, marginal, fail and not checked; each is counted, and the exit status is 1 if any fails.
)";

constexpr std::string_view compare = R"(fitup compare: set two specs or job folders side by side

Usage: fitup compare A B [options]
       fitup compare SPEC --set key=value ... [options]

  A, B                 a spec, or a job folder that 'fitup make' wrote and whose files are as it left
                       them. A spec is planned, not checked
  --set key=value      with one spec: what that value changes; by its dotted name, a bare name is one of
                       [sizes]; may be repeated
  --units mm|in        units of what is printed (default: those of A)
  -q, --quiet          nothing where nothing differs
  --json               one JSON object on standard output, messages on standard error
  --no-color           no colour (so does a NO_COLOR in the environment)
  -h, --help           print this

Parts are matched by role and shape: contours, holes and cuts, however a part is marked, called or turned.
Told are parts that are gone, added, changed, of the other hand, more or fewer, or in another place; then
masses, numbers, cut and sawn lengths, piercings, seams and sizes. The exit status is 0 where nothing
differs and 1 where something does.
)";

constexpr std::string_view lighten = R"(fitup lighten: the lightest sections and thicknesses of the shelf that pass

Usage: fitup lighten SPEC [options]

  --set key=value      give a key of the spec another value for this run, by its dotted name; a bare
                       name is one of [sizes]; may be repeated
  --units mm|in        units of what is printed (default: the spec's)
  -q, --quiet          only what passes
  --json               one JSON object on standard output, messages on standard error
  --no-color           no colour (so does a NO_COLOR in the environment)
  -h, --help           print this

Sections, rails and sheets are those of the spec's shelf ([[stock.shelf]]), or else the nearest of the
tables and the thicknesses that merchants keep. The lightest passes if no load check fails, and nothing
else fails, is marginal or is left open that is not with what stands in the spec. What is heavier than
that is planned, and not checked. Nothing is written: put the values into the spec, or after --set. The
exit status is 1 if what stands in the spec fails and nothing that was tried passes.
)";

constexpr std::string_view explain = R"(fitup explain: what a key of the spec means

Usage: fitup explain [KEY] [options]

  KEY                  box.NAME.rails.thickness, box.main.rails.thickness, box.NAME.rails or thickness;
                       without it, the list of all keys
  -q, --quiet          no effect here
  --json               one JSON object on standard output, messages on standard error
  --no-color           no colour (so does a NO_COLOR in the environment)
  -h, --help           print this
)";

constexpr std::string_view begin = R"(fitup begin: write a commented spec to start from

Usage: fitup begin NAME [--kind KIND] [--units mm|in] [options]

  NAME                 the new file is NAME.toml; one that is there already is never overwritten
  --kind KIND          row (a row of modules on threaded rods; the default), cabinet (one heavy unit
                       that stands in a cabin) or inches (a row of modules, in inches and pounds)
  --units mm|in        units that it is written in, and whose shop's sizes it uses (default: mm)
  -q, --quiet          no effect here
  --json               one JSON object on standard output, messages on standard error
  --no-color           no colour (so does a NO_COLOR in the environment)
  -h, --help           print this
)";

constexpr std::string_view tables = R"(fitup tables: the built-in tables, with the source of each row

Usage: fitup tables [WORD] [options]

  WORD                 sections, flats, threads, screws, nuts, washers, eyes, gauges or materials;
                       or what a row is called, such as M6 or 40x40; without it, all tables
  -q, --quiet          no effect here
  --json               one JSON object on standard output, messages on standard error
  --no-color           no colour (so does a NO_COLOR in the environment)
  -h, --help           print this
)";

constexpr std::string_view schema =
    R"(fitup schema: a JSON Schema (draft-07) of the spec, from the same table as 'explain'

Usage: fitup schema > fitup-schema.json

An editor that knows it completes keys and marks slips while a spec is written.

  -q, --quiet          no effect here
  --json               one JSON object on standard output, messages on standard error
  --no-color           no colour (so does a NO_COLOR in the environment)
  -h, --help           print this
)";

constexpr std::string_view inspect = R"(fitup inspect: judge STEP, DXF and STL files from anywhere

Usage: fitup inspect FILE... [options]

  --thickness T        of the sheet (3, "1/8 in", "11 ga"): judges holes, slots and webs of a DXF against it
  --material NAME      of 'fitup tables materials'; with the thickness, or for a solid, the mass is told
  --units mm|in        units of what is printed, and of a thickness without a unit (default: mm)
  -q, --quiet          only what needs attention
  --json               one JSON object on standard output, messages on standard error
  --no-color           no colour (so does a NO_COLOR in the environment)
  -h, --help           print this

What it looks at
  DXF    unit and whether it makes sense, layers, outlines open, doubled or crossing and by how much, splines,
         circles drawn as short lines, text where it would be cut, smallest hole, slot and web, cut length
  STL    closed, turned one way, size, volume
  STEP   schema, unit, solids and whether they are closed, names, volume

What a shop would refuse fails (exit status 1), what it would ask about is marginal; each says how to mend it.
No file can bring the program down: what is too much to look at is said.
)";

}  // namespace

std::string help_text(std::string_view command) {
  if (command == "make") return std::string(make);
  if (command == "check") return std::string(check);
  if (command == "compare") return std::string(compare);
  if (command == "lighten") return std::string(lighten);
  if (command == "explain") return std::string(explain);
  if (command == "begin") return std::string(begin);
  if (command == "tables") return std::string(tables);
  if (command == "schema") return std::string(schema);
  if (command == "inspect") return std::string(inspect);
  return std::string(program);
}

}  // namespace fitup::app
