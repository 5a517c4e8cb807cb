# A program on a terminal of its own: a tmux server on a socket of its own, in a folder that goes away at the end.
# Read by tests/cli/screens.sh and docs/pictures/make.sh. Needs tmux 3.3 or later; nothing of the user's is read.

screen_folder="$(mktemp -d)"
screen_patience="${HALFSPLIT_PATIENCE:-60}"  # seconds for one answer; a sanitized program takes its time

# A socket for each screen: a server that is just ending would take the next one with it.
screen_number=0
on_screen() { tmux -S "$screen_folder/socket$screen_number" -f /dev/null "$@"; }

end_screen() {
    on_screen kill-server 2>/dev/null || true
    rm -rf "$screen_folder"
}
trap end_screen EXIT

# start_screen COLUMNS ROWS FOLDER NAME=VALUE...: a shell in FOLDER with nothing in its environment but these.
start_screen() {
    local columns="$1" rows="$2" folder="$3"
    shift 3
    screen_number=$((screen_number + 1))
    on_screen new-session -d -s main -x "$columns" -y "$rows" -c "$folder" \
        env -i TERM=screen LC_ALL=C.UTF-8 PS1='$ ' "$@" sh
    on_screen set-option -g status off
    on_screen resize-window -t main -x "$columns" -y "$rows"
    prompt_line=-1
    wait_for_prompt
}

# Waits until the cursor stands below where it stood at the last prompt, behind a prompt and with nothing typed yet. What
# was typed before is answered by then, however slow the program or this script is: a line, counted from the first that
# ever was on this screen, only grows.
wait_for_prompt() {
    local line row column text end=$((SECONDS + screen_patience))
    local -a shown
    while [ "$SECONDS" -lt "$end" ]; do
        mapfile -t shown < <(on_screen display-message -p -t main \
            '#{e|+:#{history_size},#{cursor_y}} #{cursor_y} #{cursor_x}' \; capture-pane -p -t main)
        read -r line row column <<<"${shown[0]}"
        text="${shown[row + 1]:-}"  # it has lost the blank at its end
        if [ "$line" -gt "$prompt_line" ] && [[ "$text" =~ [\>\$]$ ]] && [ "$column" -eq $((${#text} + 1)) ]; then
            prompt_line="$line"
            return
        fi
        sleep 0.02
    done
    echo "after $screen_patience seconds there is no prompt on the last line of the screen; it shows:" >&2
    on_screen capture-pane -p -t main >&2
    return 1
}

# answer TEXT: types it, and waits for the next prompt.
answer() {
    on_screen send-keys -t main -l -- "$1" \; send-keys -t main Enter
    wait_for_prompt
}

# What a person sees. Escape sequences only for bold and its end, however this tmux writes them.
seen() {
    on_screen capture-pane -p -e -t main | sed -E 's/\x1b\[(39|49)m//g; s/\x1b\[0?m/\x1b[0m/g; s/ *$//'
}
